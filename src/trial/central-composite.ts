import { requireInteger, requirePositive } from "#units";

export type AxialKind = "rotatable" | "face";

/**
 * Distance of the axial points that makes the variance depend on the distance from the centre alone: α = F^(1/4).
 * `factorialRuns` F: above 0; result in coded units: 1.414, 1.682, 2 and 2.378 for full factorials of 2 to 5 factors.
 * Throws InvalidInput. Source: Box and Hunter, Ann. Math. Stat. 28 (1957); Box, Hunter and Hunter.
 */
export function rotatableDistance(factorialRuns: number): number {
  return requirePositive("factorial runs", factorialRuns) ** 0.25;
}

/**
 * Central composite design without its centre, in coded units: a two-level factorial (or a fraction of resolution V)
 * and two axial points for each factor, at ±α (rotatable) or ±1 (on the faces).
 * `factorial`: its rows of ±1, 2 factors or more; result: F + 2k rows. Throws InvalidInput on fewer than two factors.
 * Source: Box and Wilson, J. Royal Stat. Soc. B 13 (1951); Box, Hunter and Hunter.
 */
export function centralComposite(factorial: readonly (readonly number[])[], axial: AxialKind): number[][] {
  const factors = requireInteger("factors", factorial[0]?.length ?? 0, 2);
  const alpha = axial === "face" ? 1 : rotatableDistance(factorial.length);
  const star: number[][] = [];
  for (let k = 0; k < factors; k++) {
    for (const sign of [-1, 1]) star.push(Array.from({ length: factors }, (_, j) => (j === k ? sign * alpha : 0)));
  }
  return [...factorial.map((row) => [...row]), ...star];
}
