import { beamState } from "#beam";
import { type ArchiveWire, type LikeWire, layersToWire, settingToWire } from "#contract";
import { cautionsFor } from "#safety";
import type { LaserSetup, Lesson, Setting, Stack } from "#terms";
import { queryWords } from "#workflows";
import type { KeptCase } from "./kept-cases.ts";
import type { Hit } from "./open-archive.ts";

/** A lesson worth a line: its spread fell below this share of the library's. */
const LEARNT = 0.8;
const LEARNT_MOST = 4;

export function learntOf({ belief }: KeptCase): Lesson[] {
  return [...(belief?.lessons ?? [])]
    .filter((l) => l.spread < LEARNT && /^(layer|metal):/.test(l.coordinate))
    .sort((a, b) => a.spread - b.spread)
    .slice(0, LEARNT_MOST);
}

/** The stack that it most likely was burned on. */
const stackOf = ({ mixture }: KeptCase): Stack => mixture.reduce((a, b) => (b.weight > a.weight ? b : a)).stack;

function stackWords(one: KeptCase): string {
  const { layers: coat, metal } = stackOf(one);
  const layers = coat.map((l) => ({ kinds: [l.kind], colour: l.colour, thickness: null }));
  return queryWords({ layers, metals: [metal], setups: [] });
}

/** Coat, metal and set-up in words. */
export const burnedOn = (one: KeptCase): string => `${stackWords(one)}, ${one.setup?.name ?? one.setupId}`;

export function hitToWire({ case: one, likeness, words, found }: Hit<number>): LikeWire["trials"][number] {
  const r = found.recommended;
  return {
    trial: one.trialId,
    enquiry: one.enquiryId,
    part: one.partId,
    laser: one.setupId,
    likeness: Number(likeness.toFixed(6)),
    words: [...words],
    burnedOn: burnedOn(one),
    planned: one.planned,
    graded: found.graded ?? one.belief?.patches ?? null,
    clean: found.clean,
    damaged: found.damaged,
    recommended: r && { setting: settingToWire(r.setting), proven: r.proven, from: r.from },
    noWindow: found.noWindow,
    learnt: learntOf(one).map((l) => ({ coordinate: l.coordinate, mean: l.mean, spread: l.spread })),
  };
}

/** A hit with what a page shows of it besides. */
export function hitToPage(hit: Hit): ArchiveWire["trials"][number] {
  const one = hit.case;
  return {
    ...hitToWire({ ...hit, likeness: hit.likeness ?? 0 }),
    likeness: hit.likeness === null ? null : Number(hit.likeness.toFixed(6)),
    title: one.title,
    partName: one.part?.name ?? null,
    stackWords: stackWords(one),
    layers: layersToWire(stackOf(one)),
    laserName: one.setup?.name ?? null,
    savedAt: one.savedAt,
    cautions: cautionsOfHit(hit),
  };
}

function cautionsOfHit({ case: { setup, mixture, part }, found }: Hit): string[] {
  if (setup === null) return [];
  const kinds = new Map(mixture.flatMap((m) => m.stack.layers.map((l) => [l.kind.id, l.kind] as const)));
  const setting = found.recommended?.setting ?? null;
  return cautionsFor({
    setup,
    beam: setting === null ? null : beamOn(setup, setting),
    layers: [...kinds.values()],
    metal: mixture[0]?.stack.metal ?? null,
    lead: part?.lead ?? "unknown",
    chromate: part?.chromate ?? "unknown",
  });
}

/** Cautions of every set-up, coat and setting that is shown. */
export function hitCautions(hits: readonly Hit[]): string[] {
  const unique = [...new Set(hits.flatMap(cautionsOfHit))];
  return unique.length > 0 ? unique : [NO_CASE];
}

const NO_CASE = "Laser work is class 4 work: local law and the laser safety officer decide.";

/** Beam of a kept setting; null where the set-up has changed since, so that it has no such lens any more. */
function beamOn(setup: LaserSetup, setting: Setting) {
  return setup.lenses.some((l) => l.id === setting.lens) ? beamState(setup, setting) : null;
}
