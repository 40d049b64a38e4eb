/** Exponents of metre, kilogram, second, kelvin, ampere, mole. */
export type Dimension = readonly [number, number, number, number, number, number];

export const dimensionless: Dimension = [0, 0, 0, 0, 0, 0];

export function multiplyDimensions(a: Dimension, b: Dimension, power: number): Dimension {
  return a.map((exponent, i) => exponent + power * b[i]!) as unknown as Dimension;
}

export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.every((exponent, i) => exponent === b[i]);
}

/** How a dimension is called, with units to suggest. First match wins. */
const known: readonly (readonly [Dimension, string])[] = [
  [[0, 0, 0, 0, 0, 0], "a plain number or %"],
  [[1, 0, 0, 0, 0, 0], "a length such as um or mm"],
  [[2, 0, 0, 0, 0, 0], "an area such as cm2 or m2"],
  [[3, 0, 0, 0, 0, 0], "a volume such as mm3 or l"],
  [[0, 0, 1, 0, 0, 0], "a time such as ns, ms or s"],
  [[0, 0, -1, 0, 0, 0], "a frequency or rate such as Hz or kHz"],
  [[0, 1, 0, 0, 0, 0], "a mass such as g or kg"],
  [[0, 0, 0, 1, 0, 0], "a temperature such as degC or K"],
  [[0, 0, 0, -1, 0, 0], "an expansion such as 1/K"],
  [[1, 0, -1, 0, 0, 0], "a speed such as mm/s or m/s"],
  [[1, 0, -2, 0, 0, 0], "an acceleration such as m/s2"],
  [[2, 0, -1, 0, 0, 0], "an area rate such as m2/h or cm2/s"],
  [[3, 0, -1, 0, 0, 0], "a flow such as m3/h"],
  [[2, 1, -3, 0, 0, 0], "a power such as W or kW"],
  [[2, 1, -2, 0, 0, 0], "an energy such as mJ or J"],
  [[0, 1, -2, 0, 0, 0], "a fluence such as J/cm2"],
  [[0, 1, -3, 0, 0, 0], "an irradiance such as W/cm2"],
  [[1, 1, -2, 0, 0, 0], "an energy per length such as J/m"],
  [[-1, 1, -2, 0, 0, 0], "a pressure or strength such as MPa"],
  [[-3, 1, 0, 0, 0, 0], "a density such as kg/m3"],
  [[1, 1, -3, -1, 0, 0], "a conductivity such as W/(m·K)"],
  [[2, 0, -2, -1, 0, 0], "a heat capacity such as J/(kg·K)"],
  [[2, 0, -2, 0, 0, 0], "a heat per mass such as kJ/kg"],
  [[2, 1, -2, 0, 0, -1], "a molar energy such as kJ/mol"],
  [[-1, 0, 0, 0, 0, 0], "a reciprocal length such as 1/m"],
];

/** For example "a length such as um or mm". */
export function describeDimension(dimension: Dimension, example: string): string {
  return known.find(([candidate]) => sameDimension(candidate, dimension))?.[1] ?? `the unit ${example}`;
}
