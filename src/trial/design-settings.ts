import type { Setting } from "#terms";
import { invalid, requireInteger } from "#units";
import { fullFactorial } from "./factorial.ts";
import { type Factor, type FactorName, writeFactor } from "./factors.ts";

/** Designs that a plan can follow; the first is taken where none is named. */
export const designNames = [
  "physics-guided",
  "factorial",
  "fractional-factorial",
  "plackett-burman",
  "central-composite",
  "box-behnken",
  "latin-hypercube",
  "space-filling",
  "grid",
  "d-optimal",
] as const;
export type DesignName = (typeof designNames)[number];

/** The two factors of a grid with their number of levels. */
export interface GridPlan {
  readonly x: { readonly factor: FactorName; readonly levels: number };
  readonly y: { readonly factor: FactorName; readonly levels: number };
}

/**
 * Settings of a grid over two factors at equal steps in logarithms, the others held at the centre. Without a plan:
 * the first two factors that vary, with as many levels as `count` holds, as square as that goes.
 * Throws InvalidInput when a factor of the plan does not vary here.
 */
export function gridSettings(centre: Setting, factors: readonly Factor[], count: number, plan?: GridPlan): Setting[] {
  if (factors.length === 0) return [centre];
  const side = Math.max(1, Math.floor(Math.sqrt(count)));
  const [x, y] = gridFactors(factors, plan) as [Factor, Factor];
  if (plan && x.name === y.name) invalid("grid", x.name, "", "two different factors");
  const levelsX = plan ? requireInteger("levels of x", plan.x.levels, 1, 100) : Math.max(1, Math.floor(count / side));
  const levelsY = plan ? requireInteger("levels of y", plan.y.levels, 1, 100) : x === y ? 1 : side;
  return fullFactorial([levelsX, levelsY]).map(([i, j]) => {
    const across = writeFactor(centre, x.name, levelValue(x, i!, levelsX));
    return x === y ? across : writeFactor(across, y.name, levelValue(y, j!, levelsY));
  });
}

/** The two factors that a grid varies, or the same twice where only one does. None where none varies. */
export function gridFactors(factors: readonly Factor[], plan?: GridPlan): readonly Factor[] {
  if (plan !== undefined) return [factorNamed(factors, plan.x.factor), factorNamed(factors, plan.y.factor)];
  return factors.length === 0 ? [] : [factors[0]!, factors[1] ?? factors[0]!];
}

/** Level `index` of `levels` at equal steps in logarithms; the middle where there is only one. SI. */
function levelValue(factor: Factor, index: number, levels: number): number {
  const t = levels === 1 ? 0.5 : index / (levels - 1);
  if (factor.choices === null) return factor.low * (factor.high / factor.low) ** t;
  return factor.choices[Math.round(t * (factor.choices.length - 1))]!;
}

function factorNamed(factors: readonly Factor[], name: FactorName): Factor {
  const found = factors.find((factor) => factor.name === name);
  if (found) return found;
  const names = factors.map((factor) => factor.name).join(", ");
  return invalid("grid factor", name, "", `must vary here: ${names}`);
}
