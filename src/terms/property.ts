/** How an uncertain property is distributed between its 5 % and 95 % points. */
export type Distribution = "normal" | "lognormal" | "uniform" | "fixed";

/**
 * One property as the library keeps it. `value` is the median; `low` and `high` are the 5 % and 95 % points
 * (equal to `value` when fixed). All in SI.
 */
export interface Property {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly distribution: Distribution;
  /** SI unit as text, for example "W/(m·K)". */
  readonly unit: string;
  /** Where the figure holds, in words, for example "300-900 K". */
  readonly validRange: string;
  /** Source id in `#sources`. */
  readonly source: string;
  /** True when the figure was written down from memory and nobody has confirmed it. */
  readonly fromMemory: boolean;
  readonly note?: string;
}

/** A property of temperature: piecewise linear between the points, constant beyond the ends. SI. */
export interface TemperatureTable {
  readonly temperature: readonly number[];
  readonly value: readonly number[];
  readonly unit: string;
  readonly validRange: string;
  readonly source: string;
  readonly fromMemory: boolean;
  /** Relative 5 % to 95 % half width applied to the whole table, for example 0.05. */
  readonly relativeSpread: number;
  readonly note?: string;
}
