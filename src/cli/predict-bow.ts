import { formatQuantity, formatRange, invalid, parseNumber, parseQuantity, requireInRange } from "#units";
import type { bowEstimate, Stiffness } from "#workflows";

export interface StiffnessFlags {
  readonly yieldStrength?: string;
  readonly youngsModulus?: string;
  readonly poissonRatio?: string;
}

/** Strength of the metal from the command line: all three or none. */
export function readStiffness(flags: StiffnessFlags): Stiffness | null {
  const { yieldStrength, youngsModulus, poissonRatio } = flags;
  if (yieldStrength === undefined && youngsModulus === undefined && poissonRatio === undefined) return null;
  if (yieldStrength === undefined || youngsModulus === undefined || poissonRatio === undefined)
    return invalid(
      "strength of the metal",
      "in part",
      "",
      "an estimate of bow needs --yield-strength, --youngs-modulus and --poisson-ratio together",
    );
  const pascals = (text: string, unit: string, name: string) => {
    const value = parseQuantity(text, unit, name);
    if (!(value > 0)) invalid(name, text, unit, "must be above 0");
    return value;
  };
  return {
    yieldStrength: pascals(yieldStrength, "MPa", "yield strength"),
    youngsModulus: pascals(youngsModulus, "GPa", "Young's modulus"),
    poissonRatio: requireInRange("Poisson's ratio", parseNumber(poissonRatio, "Poisson's ratio"), "", 0, 0.5),
  };
}

/** One line on bow: the estimate with its range, or why there is none. */
export function bowText(bow: ReturnType<typeof bowEstimate>): string {
  if (bow.reason !== null) return bow.reason;
  if (bow.curvature === 0)
    return "none expected to last: the skin stays below its yield (a prior, not checked on parts)";
  return `edges rise towards the beam, curvature about ${formatQuantity(bow.curvature, "1/m", 2)} (${formatRange(bow.low, bow.high, "1/m", 2)}; a prior for a free plate cleaned all over, not checked on parts)`;
}
