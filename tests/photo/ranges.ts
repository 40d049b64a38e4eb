/** What is drawn, between which ends: the stated distribution of the generated photographs. One table, used and printed. */
export const ranges = {
  tilt: { low: 0, high: 28, unit: "°", words: "camera off the normal of the plate" },
  roll: { low: -12, high: 12, unit: "°", words: "sheet turned in the picture" },
  focal: { low: 24, high: 40, unit: "mm", words: "focal length, full-frame equivalent" },
  fill: { low: 0.8, high: 0.92, unit: "", words: "share of the picture that the frame spans" },
  radial: { low: -0.02, high: 0.02, unit: "", words: "radial term at the corner of the picture (division model)" },
  shift: { low: -0.03, high: 0.03, unit: "", words: "aim beside the middle, share of the distance" },
  fallOff: { low: 0, high: 0.4, unit: "", words: "largest departure of light from that in the middle, over the frame" },
  elevation: { low: 35, high: 70, unit: "°", words: "lamp above the plane of the plate" },
  veil: { low: 0, high: 0.02, unit: "", words: "veiling haze of the lens, share of white" },
  warmth: { low: -0.06, high: 0.06, unit: "", words: "white balance: red up and blue down" },
  white: { low: 0.7, high: 0.93, unit: "", words: "linear light of the brightest paper" },
  tone: { low: 0, high: 0.5, unit: "", words: "S-curve of tone" },
  sharpening: { low: 0, high: 0.5, unit: "", words: "sharpening, radius 1 px" },
  blur: { low: 0.45, high: 1.1, unit: "px", words: "blur of lens and hand, standard deviation" },
  noise: { low: 0.2, high: 1, unit: "", words: "noise; 1 is 1.3 % of half of white" },
  quality: { low: 82, high: 96, unit: "", words: "JPEG quality" },
  mottle: { low: 0, high: 0.18, unit: "", words: "mottle of bare metal, standard deviation over mean" },
  stripeSpacing: { low: 0.45, high: 1.6, unit: "mm", words: "spacing of stripes" },
  stripeShade: { low: 0.03, high: 0.15, unit: "", words: "shade of stripes on bare metal" },
  wobble: { low: 0, high: 0.05, unit: "mm", words: "wandering of the edges of patches, standard deviation" },
  island: { low: 0.3, high: 2.5, unit: "mm", words: "size of islands of residue" },
  film: { low: 0.6, high: 0.95, unit: "", words: "least hiding of residue that is a film" },
  haze: { low: 0.03, high: 0.1, unit: "", words: "hiding of even haze where there is some" },
  tint: { low: 0.05, high: 0.3, unit: "", words: "strength of heat tint where there is some" },
  meltGlint: { low: 0.5, high: 1.5, unit: "", words: "gain of glints where the metal melted" },
  metalGlare: { low: 0.3, high: 1.2, unit: "", words: "glare of metal at its peak, share of white" },
  coatGlare: { low: 0.05, high: 0.5, unit: "", words: "glare of coating at its peak, share of white" },
} as const;

/** How often something is there. */
export const shares = {
  haze: { share: 0.15, words: "test patches with even haze" },
  melt: { share: 0.3, words: "test patches with melt" },
  stripes: { share: 0.35, words: "test patches with stripes" },
  tint: { share: 0.25, words: "test patches with heat tint" },
  film: { share: 0.3, words: "test patches whose residue is a film" },
  covered: { share: 0.2, words: "photographs with a finger over one marker" },
} as const;

/** CIELAB L*, error of every printed grey step, standard deviation */
export const greyError = 0.7;

/** Residue of test patches: share of patches, low and high end; even between them. */
export const residueClasses = [
  { share: 0.3, low: 0, high: 0.02 },
  { share: 0.25, low: 0.02, high: 0.2 },
  { share: 0.25, low: 0.2, high: 0.8 },
  { share: 0.2, low: 0.8, high: 1 },
] as const;

/** The distribution in lines, to stand beside any accuracy that is measured on it. */
export function statedDistribution(): readonly string[] {
  return [
    ...Object.values(ranges).map(
      ({ low, high, unit, words }) => `${words}: ${low} to ${high}${unit && ` ${unit}`}, even`,
    ),
    ...Object.values(shares).map(({ share, words }) => `${words}: ${100 * share} %`),
    `error of printed grey steps: normal, standard deviation ${greyError} L*, each step of each strip by itself`,
    ...residueClasses.map(({ share, low, high }) => `residue ${low} to ${high}: ${100 * share} % of test patches`),
    "light: one near lamp, inverse square and cosine; glare: elongated lobe along the brushing, long tails, on wavy metal",
  ];
}
