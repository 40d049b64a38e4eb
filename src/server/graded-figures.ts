import { type GradingWire, type TrialWire, trialFromWire } from "#contract";
import type { GradedFigure } from "#report";
import type { Store } from "#store";
import { InvalidInput } from "#units";
import { gradedFigure } from "#workflows";

/** Graded coupons with their pictures, for a report. A picture that is gone or damaged is left out, the readings stay. */
export async function gradedFigures(
  store: Store,
  gradings: readonly GradingWire[],
  trials: readonly TrialWire[],
): Promise<GradedFigure[]> {
  const figures: GradedFigure[] = [];
  const inOrder = [...gradings].sort((a, b) => a.trial.localeCompare(b.trial) || a.coupon - b.coupon);
  for (const grading of inOrder) {
    const trial = trials.find((t) => t.id === grading.trial);
    if (trial === undefined) continue;
    const figure = gradedFigure(trialFromWire(trial), grading, await addressOf(store, grading.flat));
    if (figure !== null) figures.push(figure);
  }
  return figures;
}

async function addressOf(store: Store, flat: string | null): Promise<string | null> {
  if (flat === null) return null;
  try {
    const bytes = await store.photo(flat);
    return bytes === null ? null : `data:image/jpeg;base64,${Buffer.from(bytes).toString("base64")}`;
  } catch (error) {
    if (error instanceof InvalidInput) return null;
    throw error;
  }
}
