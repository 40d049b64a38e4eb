import type { PatchEvidence } from "#calibration";
import { normalCdf } from "#numerics";

/**
 * The likelihood once more, as plainly as it can be put: spreads of the shapes and of the effects are typed in again from
 * the text of the model (docs/decisions/0010), nothing is shared with the product but Φ. phi: 14 shifts of removal, 12 of
 * damage (the last 5 of each the rest without a law, whose values are handed in), two scatters, lapse, plates (removal, damage), graders (removal, damage).
 */
export function plainLogLikelihood(
  patches: readonly PatchEvidence[],
  draw: number,
  phi: ArrayLike<number>,
  coupons: number,
  graders: number,
  spreads: { readonly removal: readonly number[]; readonly damage: readonly number[] },
  rest: (p: PatchEvidence) => { readonly removal: readonly number[]; readonly damage: readonly number[] },
): number {
  const lapseOdds = (0.025 / 0.975) * Math.exp(0.4 * phi[28]!);
  const lapse = lapseOdds / (1 + lapseOdds);
  let sum = 0;
  for (const p of patches) {
    const g = p.ray.groups;
    const time = g.time - Math.log(100e-9);
    const count = g.count - Math.log(10);
    const spot = g.spot - Math.log(100e-6);
    const dose = g.dose + p.x - Math.log(5e4);
    const power = g.power + p.x - Math.log(150);
    const spacing = g.spacing - Math.log(0.4);
    const more = rest(p);
    const ofRemoval = [1, time, count, g.passes, spot, spacing, dose, power, p.thickness, ...more.removal];
    const ofDamage = [1, time, count, g.passes, spot, spacing, power, ...more.damage];
    let removal = 0.07 * phi[29 + p.coupon]! + 0.05 * phi[29 + 2 * coupons + p.grader]!;
    ofRemoval.forEach((shape, k) => {
      removal += spreads.removal[k]! * shape * phi[k]!;
    });
    let harm = 0.03 * phi[29 + coupons + p.coupon]! + 0.04 * phi[29 + 2 * coupons + graders + p.grader]!;
    ofDamage.forEach((shape, k) => {
      harm += spreads.damage[k]! * shape * phi[14 + k]!;
    });
    const s = 0.1 * Math.exp(0.4 * phi[26]!);
    const t = 0.07 * Math.exp(0.4 * phi[27]!);
    const clean = normalCdf((p.x - p.ray.clean[draw]! - removal) / s);
    const half = normalCdf((p.x - p.ray.half[draw]! - removal) / s);
    const whole = normalCdf((p.ray.melt[draw]! + harm - p.x) / t);
    const accepted = normalCdf((p.ray.damage[draw]! + harm - p.x) / t);
    const one = (w: readonly number[], c: readonly number[]) =>
      Math.log((1 - lapse) * (w[0]! * c[0]! + w[1]! * c[1]! + w[2]! * c[2]!) + lapse / 3);
    if (p.residue !== null) sum += one(p.residue, [clean, half - clean, 1 - half]);
    if (p.metal !== null) sum += one(p.metal, [whole, accepted - whole, 1 - accepted]);
  }
  return sum;
}
