import type { Cost } from "./cost-of-grading.ts";
import type { GradedPlate } from "./graded-plate.ts";
import { errorsOf, falseRefusals, placeFigures } from "./survey-figures.ts";

/** What is written to out/grading.json; null where a run did not measure it. */
export interface GradingFigures {
  readonly photos: number;
  readonly markers_share: number;
  readonly worst_centre_mm: number;
  readonly lstar_mae: number | null;
  readonly residue_mae: number | null;
  readonly coverage90: number | null;
  readonly glare4_lstar_p95: number | null;
  readonly gates_missed: number;
  readonly gates_false: number;
  readonly cpu_s_per_photo: number | null;
  readonly rss_mb: number | null;
}

/** What each figure is wanted to be. */
const targets: Partial<Record<keyof GradingFigures, readonly [words: string, met: (value: number) => boolean]>> = {
  photos: [">= 200", (v) => v >= 200],
  markers_share: [">= 0.995", (v) => v >= 0.995],
  worst_centre_mm: ["<= 0.1", (v) => v <= 0.1],
  lstar_mae: ["<= 0.4", (v) => v <= 0.4],
  residue_mae: ["<= 0.045", (v) => v <= 0.045],
  coverage90: ["0.86 to 0.95", (v) => v >= 0.86 && v <= 0.95],
  glare4_lstar_p95: ["<= 2.1", (v) => v <= 2.1],
  gates_missed: ["0", (v) => v === 0],
  gates_false: ["0", (v) => v === 0],
  cpu_s_per_photo: ["<= 2", (v) => v <= 2],
  rss_mb: ["<= 400", (v) => v <= 400],
};

export function figuresOf(plates: readonly GradedPlate[], gatesMissed: number, cost: Cost | null): GradingFigures {
  const { photos, markersShare, worstCentre } = placeFigures(plates);
  const dull = errorsOf(plates.filter(({ glare }) => !glare));
  return {
    photos,
    markers_share: markersShare,
    worst_centre_mm: worstCentre,
    lstar_mae: dull.lightnessMae,
    residue_mae: dull.residueMae,
    coverage90: dull.residueHeld,
    glare4_lstar_p95: errorsOf(plates.filter(({ glare }) => glare)).lightnessP95,
    gates_missed: gatesMissed,
    gates_false: falseRefusals(plates).length,
    cpu_s_per_photo: cost?.perPhoto ?? null,
    rss_mb: cost?.memory ?? null,
  };
}

/** Figures beside their targets, one a line. */
export function figureLines(figures: GradingFigures): string[] {
  return Object.entries(figures).map(([key, value]: [string, number | null]) => {
    const [words, met] = targets[key as keyof GradingFigures]!;
    const shown = value === null ? "not measured" : String(Number(value.toPrecision(4)));
    return `${key.padEnd(20)} ${shown.padStart(12)}   ${words.padEnd(14)} ${value === null ? "" : met(value) ? "met" : "MISSED"}`;
  });
}
