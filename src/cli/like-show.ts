import { beamState } from "#beam";
import { type LikeWire, settingToWire } from "#contract";
import { settingLine } from "#report";
import { cautionsFor } from "#safety";
import type { LaserSetup, Lesson, Setting } from "#terms";
import { formatNumber } from "#units";
import { queryWords } from "#workflows";
import type { KeptCase } from "./like-cases.ts";
import type { Found } from "./like-found.ts";

/** A lesson worth a line: its spread fell below this share of the library's. */
const LEARNT = 0.8;
const LEARNT_MOST = 4;

/** A kept trial with its likeness and what it found. */
export interface Hit {
  readonly case: KeptCase;
  readonly likeness: number;
  readonly words: readonly string[];
  readonly found: Found;
}

function learntOf({ belief }: KeptCase): Lesson[] {
  return [...(belief?.lessons ?? [])]
    .filter((l) => l.spread < LEARNT && /^(layer|metal):/.test(l.coordinate))
    .sort((a, b) => a.spread - b.spread)
    .slice(0, LEARNT_MOST);
}

function burnedOn({ mixture, setup, setupId }: KeptCase): string {
  const heaviest = mixture.reduce((a, b) => (b.weight > a.weight ? b : a)).stack;
  const layers = heaviest.layers.map((l) => ({ kinds: [l.kind], colour: l.colour, thickness: null }));
  return `${queryWords({ layers, metals: [heaviest.metal], setups: [] })}, ${setup?.name ?? setupId}`;
}

export function hitToWire({ case: one, likeness, words, found }: Hit): LikeWire["trials"][number] {
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

export function hitLines({ case: one, likeness, words, found }: Hit): string[] {
  const graded =
    found.clean === null
      ? `${found.graded ?? one.belief?.patches ?? 0} graded`
      : `${found.graded} graded: ${found.clean} clean, ${found.damaged} damaged`;
  const r = found.recommended;
  const learnt = learntOf(one).map(
    (l) =>
      `${(l.coordinate.split(":").pop() as string).replaceAll("-", " ")} ${l.mean < 0 ? "lower" : "higher"} by ${formatNumber(Math.abs(l.mean), 2)} (known to ${formatNumber(l.spread, 2)})`,
  );
  return [
    "",
    `${Math.round(100 * likeness)} %  trial ${one.trialId} (enquiry ${one.enquiryId}, part ${one.partId})`,
    `  ${burnedOn(one)}`,
    `  ${words.join(", ")}`,
    `  ${one.planned === null ? "the trial itself is not kept" : `${one.planned} patches planned`}, ${graded}`,
    ...(r ? [`  recommended then, ${r.proven ? "proven" : "not proven"}: ${settingLine(r.setting)}`] : []),
    ...(found.noWindow ? ["  no window was found among the settings tried"] : []),
    ...(learnt.length > 0 ? [`  learnt, in spreads of the library: ${learnt.join(", ")}`] : []),
  ];
}

/** Cautions of every set-up, coat and setting that is shown. */
export function hitCautions(hits: readonly Hit[]): string[] {
  const lines = hits.flatMap(({ case: { setup, mixture, part }, found }) => {
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
  });
  const unique = [...new Set(lines)];
  return unique.length > 0 ? unique : [NO_CASE];
}

const NO_CASE = "Laser work is class 4 work: local law and the laser safety officer decide.";

/** Beam of a kept setting; null where the set-up has changed since, so that it has no such lens any more. */
function beamOn(setup: LaserSetup, setting: Setting) {
  return setup.lenses.some((l) => l.id === setting.lens) ? beamState(setup, setting) : null;
}
