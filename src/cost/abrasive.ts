import { requireNonNegative, requirePositive } from "#units";

/** Figures of abrasive blasting; all of them the user's own, none is built in. Money in one currency. */
export interface AbrasiveInputs {
  /** A, t/h of abrasive */
  readonly abrasive_t_per_h: number;
  /** B, money per t bought */
  readonly abrasivePrice: number;
  /** E, money per t disposed of */
  readonly disposalPrice: number;
  /** C, money/h of equipment */
  readonly equipment: number;
  /** D, money/h of labour */
  readonly labour: number;
  /** X, m²/h */
  readonly rate_m2_per_h: number;
}

/**
 * Cost of abrasive blasting: [A(B + E) + C + D]/X.
 * @param inputs see AbrasiveInputs
 * @returns money/m²
 * Throws InvalidInput on negative figures or a rate that is not positive. Source: published worked example.
 */
export function abrasiveCostPerArea(inputs: AbrasiveInputs): number {
  const used = requireNonNegative("abrasive", inputs.abrasive_t_per_h, "t/h");
  const perTonne =
    requireNonNegative("abrasive price", inputs.abrasivePrice, "per t") +
    requireNonNegative("disposal price", inputs.disposalPrice, "per t");
  const perHour =
    requireNonNegative("equipment", inputs.equipment, "per h") + requireNonNegative("labour", inputs.labour, "per h");
  return (used * perTonne + perHour) / requirePositive("rate", inputs.rate_m2_per_h, "m2/h");
}
