import { colourDifference, type Lab, linearFromXyz, xyzFromLab } from "#grading";

export type MetalKind = "bright aluminium" | "steel" | "stainless" | "galvanised";
export type CoatKind = "black" | "grey" | "red primer" | "white" | "blue" | "green" | "rust" | "yellow";

/** CIELAB without gleam; own choices, of the order that such faces have. */
export const metals: Readonly<Record<MetalKind, Lab>> = {
  "bright aluminium": { L: 82, a: 0, b: 1 },
  steel: { L: 58, a: 0, b: 1.5 },
  stainless: { L: 68, a: 0.3, b: 3 },
  galvanised: { L: 73, a: -0.8, b: -1 },
};

export const coats: Readonly<Record<CoatKind, Lab>> = {
  black: { L: 22, a: 0, b: 0 },
  grey: { L: 55, a: -1, b: -2 },
  "red primer": { L: 38, a: 30, b: 22 },
  white: { L: 91, a: -0.5, b: 2 },
  blue: { L: 38, a: -2, b: -34 },
  green: { L: 42, a: -26, b: 14 },
  rust: { L: 37, a: 17, b: 22 },
  yellow: { L: 74, a: 6, b: 58 },
};

/** Pairs that are drawn: alike by less than this and the reader has to refuse. */
const leastDifference = 14;
export const pairs = (Object.keys(metals) as MetalKind[]).flatMap((metal) =>
  (Object.keys(coats) as CoatKind[])
    .filter((coat) => colourDifference(metals[metal], coats[coat]) >= leastDifference)
    .map((coat) => ({ metal, coat })),
);

export type Rgb = readonly [number, number, number];

/** Linear sRGB, not clipped. */
export const linearOf = (lab: Lab): Rgb => linearFromXyz(xyzFromLab(lab));
