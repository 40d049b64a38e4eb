import { coordinateNames, type KnownNumber, type KnownNumbers, metals, setups } from "#library";
import type { Belief, LaserSetup, Lesson, Metal, PartEnquiry } from "#terms";
import { firstHand, onePerTrial } from "./beliefs-lineage.ts";
import { type FamilyOf, type JobSetup, matchName, shiftShare } from "./beliefs-match.ts";
import { type CarriedPiece, carriedWords } from "./beliefs-words.ts";
import { requireLesson, SPREAD_FLOOR, widened } from "./beliefs-widen.ts";

/** What earlier jobs leave this one to start from. Empty where nothing fits. */
export interface Carried {
  /** properties by `coordinateNames`, for the draws */
  readonly properties: KnownNumbers;
  /** how far the physics was off, by the names of the calibration */
  readonly shifts: KnownNumbers;
  /** what was carried from where and how it was widened, one sentence each */
  readonly words: readonly string[];
  /** trials that something was carried from */
  readonly from: readonly string[];
}

/** What is known of the metals and set-ups that beliefs speak of by their ids. */
export interface KnownShelves {
  readonly metals: readonly Pick<Metal, "id" | "family">[];
  readonly setups: readonly Pick<LaserSetup, "id" | "kind">[];
}

export interface CarryOptions {
  /** set-up of the job; left out: no shifts are carried, they belong to a source */
  readonly setup?: LaserSetup;
  /** families of metals that are in no library */
  readonly familyOf?: FamilyOf;
  /** the library that the job is worked with; ours as it comes when left out */
  readonly shelves?: KnownShelves | undefined;
}

/** A belief that speaks of a number, with its lesson and the share that counts. */
interface Speaker {
  readonly belief: Belief;
  readonly lesson: Lesson;
  readonly share: number;
}

const NOTHING_CARRIED: Carried = { properties: new Map(), shifts: new Map(), words: [], from: [] };

/**
 * Lessons of earlier trials that hold for this part, widened as `widened` states: half of a lesson's information on the
 * same kind, colour and metal, a quarter on another metal of the family, nothing on another family; of shifts a quarter
 * under the same coat on the same set-up, an eighth on another of its kind, half of either on another metal of the family.
 * Thickness and machine are never carried. Where the part is a mixture a number counts as in the stack where it counts
 * least. Two beliefs of one trial count once, and so do those that another one was built on.
 * Units: those of `Lesson`. Errors: InvalidInput for a lesson without finite mean or positive spread.
 */
export function carried(beliefs: readonly Belief[], part: PartEnquiry, options: CarryOptions = {}): Carried {
  for (const b of beliefs) for (const l of [...b.lessons, ...b.shifts]) requireLesson(l, `trial ${b.trialId}`);
  const kept = onePerTrial(beliefs);
  const shelves = options.shelves ?? { metals, setups };
  const familyOf = familyIn(part, shelves, options.familyOf);
  const stacks = part.mixture.map((m) => ({ stack: m.stack, names: new Set(coordinateNames(m.stack)) }));
  const job = options.setup === undefined ? null : jobOn(options.setup, shelves);
  const taught = new Map(kept.map((b) => [b, new Map(b.lessons.map((l) => [l.coordinate, l]))]));

  const onProperty = (name: string): Speaker[] =>
    kept.flatMap((belief) => {
      const matches = stacks.filter((s) => s.names.has(name)).map((s) => matchName(name, s.stack, belief, familyOf));
      const least = matches.reduce((a, b) => (a === null || b === null ? null : b.share < a.share ? b : a));
      const lesson = least === null ? undefined : taught.get(belief)?.get(least.coordinate);
      return least === null || lesson === undefined ? [] : [{ belief, lesson, share: least.share }];
    });
  const onShift = (name: string): Speaker[] =>
    kept.flatMap((belief) => {
      const lesson = belief.shifts.find((s) => s.coordinate === name);
      const share = job === null ? 0 : Math.min(...stacks.map((s) => shiftShare(belief, s.stack, job, familyOf)));
      return lesson === undefined || !(share > 0 && share <= 1) ? [] : [{ belief, lesson, share }];
    });

  const names = new Set(stacks.flatMap((s) => [...s.names]).filter((n) => n !== null));
  const shiftNames = new Set(kept.flatMap((b) => b.shifts.map((s) => s.coordinate)));
  const properties = joined(names, onProperty, kept);
  const shifts = joined(shiftNames, onShift, kept);
  const pieces = [...properties.pieces, ...shifts.pieces];
  if (pieces.length === 0) return NOTHING_CARRIED;
  const lines = carriedWords(pieces, new Map([...properties.known, ...shifts.known]), part);
  const from = [...new Set(pieces.map((p) => p.belief.trialId))];
  const rule = `Earlier trials are counted in part only, and nothing as better known than ${SPREAD_FLOOR} of the library's spread.`;
  return {
    properties: properties.known,
    shifts: shifts.known,
    words:
      lines.length === 0
        ? [`Earlier trials (${from.join(", ")}) taught nothing that stands out here.`]
        : [...lines, rule],
    from,
  };
}

function joined(names: ReadonlySet<string>, speakersOn: (name: string) => Speaker[], all: readonly Belief[]) {
  const known = new Map<string, KnownNumber>();
  const pieces: CarriedPiece[] = [];
  for (const name of names) {
    const speakers = firstHand(speakersOn(name), all);
    if (speakers.length === 0) continue;
    known.set(name, widened(speakers));
    for (const { belief, share } of speakers) pieces.push({ name, belief, share });
  }
  return { known, pieces };
}

/** Families by the caller, else by the part's own metals, else by the library. */
function familyIn(part: PartEnquiry, shelves: KnownShelves, given: FamilyOf | undefined): FamilyOf {
  const own = new Map(part.mixture.map((m) => [m.stack.metal.id, m.stack.metal.family]));
  return (id) => given?.(id) ?? own.get(id) ?? shelves.metals.find((m) => m.id === id)?.family ?? null;
}

function jobOn(setup: LaserSetup, shelves: KnownShelves): JobSetup {
  const kinds = new Map([...shelves.setups, setup].map((s) => [s.id, s.kind]));
  return { setupId: setup.id, kindOf: (id) => kinds.get(id) ?? null };
}
