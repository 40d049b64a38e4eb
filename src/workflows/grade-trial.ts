import {
  type CouponPlan,
  type GradedCoupon,
  gradeTrialCoupon,
  type PhotoLook,
  type PhotoPath,
  type PhotoSummary,
  photoPath,
  type PlateMap,
} from "#grading";
import type { PartEnquiry, Trial } from "#terms";

/** What photographs may settle on a part: the worst of its kinds of stack, each reason once. */
export function photoPathOf(part: PartEnquiry): PhotoPath {
  const paths = part.mixture.map(({ stack }) => photoPath(stack, part.acceptance));
  const rank = { yes: 0, perhaps: 1, no: 2 } as const;
  const known = paths.flatMap(({ difference }) => difference ?? []);
  return {
    answer: paths.reduce(
      (worst, { answer }) => (rank[answer] > rank[worst] ? answer : worst),
      "yes" as PhotoPath["answer"],
    ),
    unseen: [...new Set(paths.flatMap(({ unseen }) => unseen))],
    reasons: [...new Set(paths.flatMap(({ reasons }) => reasons))],
    difference: known.length === 0 ? null : Math.min(...known),
    ways: [...new Map(paths.flatMap(({ ways }) => ways).map((way) => [way.way, way])).values()],
  };
}

/** The same in sentences, for a plan and a run sheet; empty where photographs do. */
export function photoPathWords({ answer, reasons, ways }: PhotoPath): string[] {
  if (answer === "yes") return [];
  const lead =
    answer === "no" ? "Photographs cannot settle the residue here." : "Photographs may not settle the residue here.";
  return [[lead, ...reasons].join(" "), ...ways.map(({ words }) => words)];
}

/** Photographs of a trial, joined to one graded coupon for each coupon that is in any of them. */
export function gradeTrial(
  trial: Trial,
  part: PartEnquiry,
  plans: readonly CouponPlan[],
  looks: readonly PhotoLook[],
): GradedCoupon[] {
  const path = photoPathOf(part);
  return plans
    .filter(({ coupon }) => looks.some((look) => look.coupon === coupon))
    .map((plan) => gradeTrialCoupon(trial, plan, looks, part.acceptance, path));
}

/** The photograph that shows a graded coupon best: most patches were read from it. Null where none settles the geometry. */
export function bestLook({ looks, patches }: GradedCoupon): (PhotoSummary & { readonly map: PlateMap }) | null {
  const placed = looks.flatMap((look) => (look.map === null ? [] : [{ ...look, map: look.map }]));
  const read = (name: string): number => patches.filter(({ reading }) => reading.photo === name).length;
  const [first] = placed;
  if (first === undefined) return null;
  return placed.reduce((best, look) => (read(look.photo) > read(best.photo) ? look : best), first);
}
