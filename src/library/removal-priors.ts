import type { Property } from "#terms";

/**
 * Factor of the plume threshold: F_s = factor·√τ. Best momentum coupling, where the plume begins to shade, was seen
 * near 4.8e8·√τ J/m² over many materials; a factor of 2.5 to either side is our own allowance for paint and rust.
 */
export const plumeFactor: Property = {
  value: 4.8e8,
  low: 1.9e8,
  high: 1.2e9,
  distribution: "lognormal",
  unit: "J/(m²·s^0.5)",
  validRange: "1 ns to 1 µs, near 1.06 µm",
  source: "phipps-1988",
  fromMemory: true,
  note: "15 J/cm² at 100 ns; an empirical prior, not a plasma model",
};

/** K at which the rate of conversion is stated. */
export const CONVERSION_REFERENCE = 1700;

const prior = {
  validRange: "1000-2500 K, 1 µs to seconds",
  source: "osticioli-siano-2013",
  fromMemory: false,
} as const;

/** 1/s at 1700 K: between the 120 ns that convert next to nothing and the 40 µs that convert most of a rust layer. */
export const conversionRate: Property = {
  value: 6e4,
  low: 2e4,
  high: 1.8e5,
  distribution: "lognormal",
  unit: "1/s",
  ...prior,
  note: "own prior from the order of regimes only; fluences were not published in what was read",
};

/** J/mol: dehydration of rust lies near 120, reduction of hematite near 140 to 180 (from memory). */
export const conversionEnergy: Property = {
  value: 140e3,
  low: 120e3,
  high: 165e3,
  distribution: "normal",
  unit: "J/mol",
  ...prior,
  fromMemory: true,
};
