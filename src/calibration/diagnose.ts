import { mean, variance } from "#numerics";
import type { Posterior } from "./calibrate.ts";
import type { Island } from "./island.ts";
import { shiftNames } from "./shapes.ts";

/** How well the islands of a posterior agree on one number. */
export interface QuantityCheck {
  readonly name: string;
  /** √(pooled over within variance), islands as chains; near 1 when they agree */
  readonly rHat: number;
  /** independent draws behind the mean over all islands, by this number alone: rough, see `posteriorChecks` */
  readonly effective: number;
}

export interface PosteriorChecks {
  readonly quantities: readonly QuantityCheck[];
  /** the largest R̂ of all */
  readonly rHat: number;
  /** independent draws, from all quantities together; at most the number of particles */
  readonly effectiveSampleSize: number;
  /** standard deviation of the estimate of the effective number, as a share of it, if the quantities were independent */
  readonly effectiveNoise: number;
  /** true where both gates are passed */
  readonly settled: boolean;
  readonly words: readonly string[];
}

/** Gates, own choice: R̂ is the largest of some sixteen, each from a few islands, so it lies above that of any one. */
const posteriorGates = { rHat: 1.1, effective: 200 } as const;

/**
 * Agreement of the islands of a posterior, which know nothing of each other: each should have found the same truth.
 *
 * Equation: B variance of the island means, W mean variance within an island of n: R̂ = √((n − 1)/n + B/W). Independent draws
 * would give B = W/n; what B is above that is draws that are no news: effective = I·W/B per quantity, and I/mean(B/W)
 * over all. With I islands B has I − 1 degrees of freedom: one quantity's figure scatters by √(2/(I − 1)), 80 % for four
 * islands; all q together by √(2/(q·(I − 1))), if they were independent, which shifts that share patches are not quite.
 * Units: 1. Range: two islands and more; with one R̂ is Infinity and the number 0: nothing shows that it settled.
 * Errors: none. Source: Gelman and Rubin, Statistical Science 7 (1992), with islands in the place of chains.
 */
export function posteriorChecks(posterior: Posterior): PosteriorChecks {
  const { islands } = posterior;
  const total = islands.reduce((sum, island) => sum + island.count, 0);
  const ratios = quantitiesOf(posterior).map(({ name, values }) => {
    const columns = islands.map((island) => values(island));
    const within = mean(columns.map(variance));
    const between = islands.length > 1 ? variance(columns.map(mean)) : Number.POSITIVE_INFINITY;
    // Every particle at one place in every island: nothing left to disagree on.
    return { name, ratio: within > 0 ? between / within : between > 0 ? Number.POSITIVE_INFINITY : 0 };
  });
  const size = Math.min(...islands.map((island) => island.count));
  const fromRatio = (ratio: number) => Math.min(total, islands.length / ratio);
  const quantities = ratios.map(({ name, ratio }) => ({
    name,
    rHat: Math.sqrt((size - 1) / size + ratio),
    effective: fromRatio(ratio),
  }));
  const rHat = Math.max(...quantities.map((q) => q.rHat));
  const effectiveSampleSize = fromRatio(mean(ratios.map((r) => r.ratio)));
  const effectiveNoise = Math.sqrt(2 / (ratios.length * Math.max(1, islands.length - 1)));
  const settled = rHat <= posteriorGates.rHat && effectiveSampleSize >= posteriorGates.effective;
  return {
    quantities,
    rHat,
    effectiveSampleSize,
    effectiveNoise,
    settled,
    words: gateWords(posterior, rHat, effectiveSampleSize, settled),
  };
}

function gateWords(posterior: Posterior, rHat: number, effective: number, settled: boolean): string[] {
  if (posterior.islands.length < 2)
    return ["The update ran in one population only: nothing shows whether it settled. Run it in four."];
  const figures = `R̂ up to ${rHat.toFixed(3)}, about ${Math.round(effective)} independent draws`;
  if (settled) return [`${posterior.islands.length} populations run apart from each other agree (${figures}).`];
  return [
    `${posterior.islands.length} populations run apart from each other do not quite agree (${figures}): read every chance as rough, or repeat with more versions.`,
  ];
}

interface Quantity {
  readonly name: string;
  readonly values: (island: Island) => Float64Array;
}

/** What is compared: mean edges over the burned patches, as far as there are any, and every shift. */
function quantitiesOf(posterior: Posterior): Quantity[] {
  const { layout, problem } = posterior;
  const { patches } = problem;
  const edge = (
    name: string,
    rows: readonly Float64Array[],
    of: (i: number) => Float64Array,
    first: number,
  ): Quantity => ({
    name,
    values: ({ count, draw, phi }) =>
      Float64Array.from({ length: count }, (_, m) => {
        let sum = 0;
        for (let i = 0; i < rows.length; i++) {
          const row = rows[i]!;
          sum += of(i)[draw[m]!]!;
          for (let k = 0; k < row.length; k++) sum += row[k]! * phi[m * layout.size + first + k]!;
        }
        return sum / rows.length;
      }),
  });
  const shifts = shiftNames.map((name, k) => ({
    name,
    values: ({ count, phi }: Island) => Float64Array.from({ length: count }, (_, m) => phi[m * layout.size + k]!),
  }));
  if (patches.length === 0) return shifts;
  return [
    edge("removal edge of the burned patches", problem.removalRows, (i) => patches[i]!.ray.clean, layout.removal),
    edge("damage edge of the burned patches", problem.damageRows, (i) => patches[i]!.ray.damage, layout.damage),
    ...shifts,
  ];
}
