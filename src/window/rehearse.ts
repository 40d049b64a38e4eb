import {
  damageShapes,
  effectPriors,
  type MetalReading,
  type PatchEvidence,
  referenceOf,
  removalShapes,
  type ResidueReading,
  shapeRow,
} from "#calibration";
import { createRandom, type RandomStream, quantile } from "#numerics";
import { levelOf } from "./choice-table.ts";
import { sequentialTrial, type TrialPolicy } from "./sequential.ts";

/** What rehearsed trials needed. */
export interface TrialForecast {
  /** patches that half of the rehearsals needed, and nine in ten, of those that settled */
  readonly median: number;
  readonly most: number;
  /** share of rehearsals that settled within the limit of patches, and that ended with no window found */
  readonly settled: number;
  readonly nothing: number;
  readonly rehearsals: number;
}

/**
 * Estimate beforehand of the patches that the question needs: the trial is rehearsed on truths drawn from the same prior
 * that the planner starts from, with its scatter, plates and wrong grades, by the same rules of choice and stop.
 *
 * Units: counts and shares. Range: rehearsals 1 to 1000. Errors: those of `sequentialTrial`. Source: own procedure; as good
 * as the prior, and no better.
 */
export function rehearse(policy: TrialPolicy, rehearsals: number, perCoupon: number): TrialForecast {
  const random = createRandom(policy.seed);
  const counts: number[] = [];
  let nothing = 0;
  for (let i = 0; i < rehearsals; i++) {
    const stream = random.substream(i);
    const burn = imaginedBurn(policy, perCoupon, stream);
    const end = sequentialTrial({ ...policy, seed: policy.seed + 1000 * i }, burn);
    if (end.verdict === "go on") continue;
    counts.push(end.patches.length);
    if (end.verdict === "nothing found") nothing++;
  }
  return {
    median: counts.length === 0 ? policy.most : Math.round(quantile(counts, 0.5)),
    most: counts.length === 0 ? policy.most : Math.round(quantile(counts, 0.9)),
    settled: counts.length / rehearsals,
    nothing: nothing / rehearsals,
    rehearsals,
  };
}

/** A truth from the prior that answers as a coupon does. */
function imaginedBurn(policy: TrialPolicy, perCoupon: number, random: RandomStream) {
  const from = referenceOf(policy.kind);
  const version = random.integer(policy.draws);
  const removal = removalShapes.map(() => random.normal());
  const damage = damageShapes.map(() => random.normal());
  const plates = new Map<number, { removal: number; damage: number }>();
  const plate = (coupon: number) => {
    const known = plates.get(coupon) ?? {
      removal: effectPriors.couponRemoval * random.normal(),
      damage: effectPriors.couponDamage * random.normal(),
    };
    plates.set(coupon, known);
    return known;
  };
  const sum = (row: Float64Array, z: readonly number[]) => row.reduce((s, r, k) => s + r * z[k]!, 0);
  return (
    picks: readonly { readonly family: number; readonly setting: { readonly level: number } }[],
    burned: number,
  ) =>
    picks.map((pick, i): PatchEvidence => {
      const ray = policy.rays[pick.family]!;
      const x = levelOf(ray, pick.setting.level);
      const coupon = Math.floor((burned + i) / perCoupon);
      const on = plate(coupon);
      const reach =
        x -
        sum(shapeRow(removalShapes, ray, x, 0, from), removal) -
        on.removal +
        effectPriors.scatterRemoval * random.normal();
      const harm =
        x -
        sum(shapeRow(damageShapes, ray, x, 0, from), damage) -
        on.damage +
        effectPriors.scatterDamage * random.normal();
      const wrong = () => random.next() < effectPriors.lapse;
      const residue = wrong()
        ? random.integer(3)
        : reach >= ray.clean[version]!
          ? 0
          : reach >= ray.half[version]!
            ? 1
            : 2;
      const metal = wrong() ? random.integer(3) : harm <= ray.melt[version]! ? 0 : harm <= ray.damage[version]! ? 1 : 2;
      return {
        patch: burned + i + 1,
        ray,
        x,
        coupon,
        grader: 0,
        thickness: 0,
        residue: sure(residue),
        metal: sure(metal),
      };
    });
}

const sure = (k: number): ResidueReading & MetalReading => [k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0];
