import type { Setting } from "#terms";
import { invalid, requireInteger } from "#units";
import { fullFactorial } from "./factorial.ts";
import { type Factor, type FactorName, settingAt, writeFactor } from "./factors.ts";

export type DesignName = "grid" | "space-filling" | "factorial";

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
  const x = plan ? factorNamed(factors, plan.x.factor) : factors[0]!;
  const y = plan ? factorNamed(factors, plan.y.factor) : (factors[1] ?? factors[0]!);
  if (plan && x.name === y.name) invalid("grid", x.name, "", "two different factors");
  const levelsX = plan ? requireInteger("levels of x", plan.x.levels, 1, 100) : Math.max(1, Math.floor(count / side));
  const levelsY = plan ? requireInteger("levels of y", plan.y.levels, 1, 100) : x === y ? 1 : side;
  return fullFactorial([levelsX, levelsY]).map(([i, j]) => {
    const across = writeFactor(centre, x.name, levelValue(x, i!, levelsX));
    return x === y ? across : writeFactor(across, y.name, levelValue(y, j!, levelsY));
  });
}

/** Level `index` of `levels` at equal steps in logarithms; the middle where there is only one. SI. */
function levelValue(factor: Factor, index: number, levels: number): number {
  const t = levels === 1 ? 0.5 : index / (levels - 1);
  if (factor.choices === null) return factor.low * (factor.high / factor.low) ** t;
  return factor.choices[Math.round(t * (factor.choices.length - 1))]!;
}

/**
 * Settings of a two-level full factorial at a quarter and three quarters of each factor's range (in logarithms), over
 * as many of the factors as 2^k ≤ `count` allows, the first ones first.
 */
export function factorialSettings(centre: Setting, factors: readonly Factor[], count: number): Setting[] {
  const varied = factors.slice(0, Math.max(0, Math.floor(Math.log2(Math.max(1, count)))));
  if (varied.length === 0) return [centre];
  return fullFactorial(varied.map(() => 2)).map((levels) =>
    settingAt(
      centre,
      varied,
      levels.map((level) => (level === 0 ? 0.25 : 0.75)),
    ),
  );
}

function factorNamed(factors: readonly Factor[], name: FactorName): Factor {
  const found = factors.find((factor) => factor.name === name);
  if (found) return found;
  const names = factors.map((factor) => factor.name).join(", ");
  return invalid("grid factor", name, "", `must vary here: ${names}`);
}
