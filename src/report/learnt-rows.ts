import type { DriftSpread, LearntNumber, NextPatch, TrialStop, WindowResult } from "#terms";
import { formatNumber, requireFinite } from "#units";

/** What the verdict of the stopping rule means, in one short line. */
export const stopHeadlines: Readonly<Record<TrialStop["verdict"], string>> = {
  "go on": "The trial is not finished: more patches are worth burning.",
  recommend: "The trial may end here with the recommended setting.",
  "nothing found": "The trial may end here: no window found among the settings tried.",
};

/** One number that a trial pinned down, as it is read: name, before, after, how much of the spread is left. */
export interface LearntRow {
  readonly name: string;
  readonly before: string;
  readonly after: string;
  readonly left: string;
}

/** Median with its 90 % range and unit, "2 J/cm² (1 to 4)". Values are in `unit` already, as the record holds them. */
function ranged({ low, median, high }: LearntNumber["prior"], unit: string): string {
  for (const value of [low, median, high]) requireFinite("learnt number", value, unit);
  const name = unit === "" ? "" : ` ${unit}`;
  return `${formatNumber(median)}${name} (${formatNumber(low)} to ${formatNumber(high)})`;
}

/** Spread left in whole per cent; a trial that taught nothing says so. `share` from 0; throws InvalidInput when not finite. */
export function spreadLeftText(share: number): string {
  requireFinite("spread left", share);
  if (share >= 0.995) return "all of it";
  return share < 0.01 ? "below 1 %" : `${Math.round(100 * share)} %`;
}

/** Rows of a before-and-after table. Throws InvalidInput on a number that is not finite. */
export function learntRows(numbers: readonly LearntNumber[]): LearntRow[] {
  return numbers.map(({ name, unit, prior, posterior, spreadLeft }) => ({
    name,
    before: ranged(prior, unit),
    after: ranged(posterior, unit),
    left: spreadLeftText(spreadLeft),
  }));
}

/** The drift that chances are averaged over, ± two standard deviations as people speak of it. Throws on a number not finite. */
export function driftSentence(drift: DriftSpread): string {
  const of = (name: string, s: number): string =>
    `±${formatNumber(200 * requireFinite(`drift of ${name}`, s), 2)} % ${name}`;
  const { power, spot, speed, thickness } = drift;
  return (
    `Every chance is an average over the drift of production: ${of("power", power)}, ${of("spot", spot)}, ` +
    `${of("speed", speed)} and ${of("layer thickness", thickness)}, each two standard deviations. ` +
    "Scatter from coupon to coupon is kept apart and is not in the chances."
  );
}

/** Patches to burn next, with how many of them are the same. */
export function nextRows(next: readonly NextPatch[]): readonly (NextPatch & { readonly patches: number })[] {
  const rows = new Map<string, NextPatch & { readonly patches: number }>();
  for (const one of next) {
    const key = JSON.stringify([one.setting, one.reason]);
    rows.set(key, { ...one, patches: (rows.get(key)?.patches ?? 0) + 1 });
  }
  return [...rows.values()];
}

/** Caveats of a window beside what the checks and the sentence on the drift say already, each once. */
export function furtherCaveats({ caveats, learnt }: WindowResult): string[] {
  return [...new Set(caveats)].filter(
    (line) => !learnt.words.includes(line) && !line.includes("scatter from coupon to coupon is kept apart"),
  );
}
