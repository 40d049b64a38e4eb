import { checkSetting } from "#beam";
import { type EnquiryFile, resolveEnquiry, type TrialWire, trialFromWire } from "#contract";
import type { Library } from "#library";
import type { StoreReader } from "#store";
import type { Enquiry } from "#terms";
import { InvalidInput } from "#units";

export const shelves = ["metals", "layers", "setups", "fume"] as const;
export type Shelf = (typeof shelves)[number];

export interface Dependants {
  readonly enquiries: readonly {
    readonly id: string;
    readonly title: string;
    /** false: it is only one of what an unknown may be */
    readonly named: boolean;
    readonly parts: readonly string[];
  }[];
  readonly trials: readonly { readonly id: string; readonly enquiry: string; readonly part: string }[];
  readonly beliefs: readonly { readonly id: string; readonly trial: string; readonly enquiry: string }[];
  /** layers of the library that speak of a fume entry */
  readonly layers: readonly string[];
}

function refusalOf<T>(work: () => T): { readonly value: T | null; readonly error: InvalidInput | null } {
  try {
    return { value: work(), error: null };
  } catch (error) {
    if (error instanceof InvalidInput) return { value: null, error };
    throw error;
  }
}

const resolved = (file: EnquiryFile, library: Library): Enquiry | null =>
  refusalOf(() => resolveEnquiry(file, library)).value;

/** Parts of an enquiry that use an entry: by name, or as one of what an unknown is taken for. */
function partsUsing(file: EnquiryFile, library: Library, shelf: Shelf, id: string) {
  const whole = resolved(file, library);
  return file.parts.flatMap((part, i) => {
    const name = part.id ?? `part-${i + 1}`;
    const stacks = whole?.parts.find((p) => p.id === name)?.mixture.map((m) => m.stack) ?? [];
    if (shelf === "metals") {
      if (part.material === id) return [{ name, named: true }];
      return stacks.some((s) => s.metal.id === id) ? [{ name, named: false }] : [];
    }
    const kinds = stacks.flatMap((s) => s.layers.map((l) => l.kind));
    const uses = (kind: string) => kind === id || (shelf === "fume" && fumeOf(library, kind).includes(id));
    if (part.layers.some((l) => uses(l.kind))) return [{ name, named: true }];
    return kinds.some((k) => uses(k.id)) ? [{ name, named: false }] : [];
  });
}

const fumeOf = (library: Library, kind: string): readonly string[] =>
  library.layerKinds.find((k) => k.id === kind)?.fume ?? [];

/** Enquiries, trials and beliefs that use an entry of the library. */
export async function dependantsOf(
  reader: StoreReader,
  library: Library,
  shelf: Shelf,
  id: string,
): Promise<Dependants> {
  const kept = await reader.list("enquiry");
  const lines = await reader.trialLines();
  const trials: Dependants["trials"][number][] = [];
  const enquiries: Dependants["enquiries"][number][] = [];
  for (const { id: enquiry, record } of kept) {
    const using = shelf === "setups" ? [] : partsUsing(record, library, shelf, id);
    const mine = lines.filter(
      (t) => t.enquiry === enquiry && (shelf === "setups" ? t.laser === id : using.some((u) => u.name === t.part)),
    );
    trials.push(...mine.map((t) => ({ id: t.id, enquiry, part: t.part })));
    const parts = shelf === "setups" ? [...new Set(mine.map((t) => t.part))] : using.map((u) => u.name);
    const named = shelf === "setups" || using.some((u) => u.named);
    if (parts.length > 0) enquiries.push({ id: enquiry, title: record.title, named, parts });
  }
  const beliefs = (await reader.list("belief"))
    .filter(({ record: b }) => {
      if (shelf === "metals") return b.metal === id;
      if (shelf === "setups") return b.laser === id;
      return b.layers.some((l) => l.kind === id || (shelf === "fume" && fumeOf(library, l.kind).includes(id)));
    })
    .map(({ id: belief, record: b }) => ({ id: belief, trial: b.trial, enquiry: b.enquiry }));
  const layers = shelf === "fume" ? library.layerKinds.filter((k) => k.fume.includes(id)).map((k) => k.id) : [];
  return { enquiries, trials, beliefs, layers };
}

/** Why a trial cannot be read with this library, or null. */
function trialTrouble(wire: TrialWire, library: Library): string | null {
  const setup = library.setups.find((s) => s.id === wire.laser);
  if (setup === undefined) return `laser set-up ${wire.laser} would be gone`;
  for (const { setting } of trialFromWire(wire).patches) {
    const { error } = refusalOf(() => setting && checkSetting(setup, setting));
    if (error !== null) return error.message;
  }
  return null;
}

/** Ids of entries that are gone or not the same any more. */
function changedIds(before: readonly { readonly id: string }[], after: typeof before): ReadonlySet<string> {
  const now = new Map(after.map((e) => [e.id, JSON.stringify(e)]));
  return new Set(before.filter((e) => now.get(e.id) !== JSON.stringify(e)).map((e) => e.id));
}

/**
 * What could be read before and could not be read afterwards, one piece of a sentence each: nothing recorded may lose
 * the ground that it stands on.
 */
export async function brokenBy(reader: StoreReader, before: Library, after: Library): Promise<string[]> {
  const broken: string[] = [];
  // Only what changed can break anything: nobody waits while a thousand trials are read for a new metal.
  const setups = changedIds(before.setups, after.setups);
  const stacks = changedIds([...before.metals, ...before.layerKinds], [...after.metals, ...after.layerKinds]);
  for (const { id, record } of stacks.size === 0 ? [] : await reader.list("enquiry")) {
    const { error } = refusalOf(() => resolveEnquiry(record, after));
    if (error === null || resolved(record, before) === null) continue;
    // The rule goes on to list every known id.
    broken.push(`enquiry ${id} (${error.field} ${error.value}: ${error.rule.split(";")[0]})`);
  }
  for (const line of setups.size === 0 ? [] : await reader.trialLines()) {
    const record = setups.has(line.laser) ? (await reader.latest("trial", line.id))?.record : undefined;
    if (record === undefined) continue;
    const trouble = trialTrouble(record, after);
    if (trouble !== null && trialTrouble(record, before) === null)
      broken.push(`trial ${line.id} of enquiry ${record.enquiry} (${trouble})`);
  }
  return broken;
}
