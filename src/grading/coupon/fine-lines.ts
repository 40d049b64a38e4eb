import { formatNumber, fromSI } from "#units";
import type { Gate } from "../gate.ts";
import type { PatchReading } from "../reading/patch-reading.ts";
import type { CouponPlan } from "./coupon-plan.ts";

/**
 * Says for which patches the lines of the scan lie closer than the photographs tell, so that no streak found there means
 * nothing. Empty when all are told. Units: spacing m as planned, finest period mm as read.
 */
export function fineLines(plan: CouponPlan, readings: readonly PatchReading[]): Gate[] {
  const finer = plan.patches.flatMap(({ patch, lineSpacing }) => {
    const streaks = readings.find((r) => r.patch === patch)?.streaks ?? null;
    if (lineSpacing === null || streaks === null || fromSI(lineSpacing, "mm") >= streaks.finest) return [];
    return [{ patch, spacing: fromSI(lineSpacing, "mm"), finest: streaks.finest }];
  });
  if (finer.length === 0) return [];
  const least = Math.min(...finer.map((f) => f.spacing));
  const finest = Math.max(...finer.map((f) => f.finest));
  return [
    {
      gate: "fine lines",
      sentence:
        `Lines ${formatNumber(least, 2)} mm apart do not show in these photographs, which tell ${formatNumber(finest, 2)} mm ` +
        `and more (patches ${ranges(finer.map((f) => f.patch))}): ` +
        "take close-ups with three markers of the frame in view, or look for streaks with a magnifier.",
    },
  ];
}

/** Numbers in order with runs drawn together: 1, 2, 3, 7 is "1-3, 7". */
function ranges(numbers: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const n of [...numbers].sort((a, b) => a - b)) {
    const last = runs.at(-1);
    if (last !== undefined && n <= last[1] + 1) last[1] = n;
    else runs.push([n, n]);
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : `${from}-${to}`)).join(", ");
}
