/** One covariance of the latent of a flexible model: constant, straight line and bump, on standardised rows. */
export interface FlexibleScales {
  /** standard deviation of the constant */
  readonly constant: number;
  /** standard deviation of each slope */
  readonly slope: number;
  /** standard deviation of the bump */
  readonly bump: number;
  /** distance over which the bump forgets */
  readonly length: number;
}

/**
 * Covariance of the latent at two rows: c² + s²·x·x′ + b²·exp(−|x − x′|²/(2ℓ²)). Rows standardised (1), of one length;
 * scales (1), length above 0; result (1). Throws nothing. Source: Rasmussen and Williams (2006), 4.2.
 */
export function covariance(x: readonly number[], other: readonly number[], scales: FlexibleScales): number {
  let product = 0;
  let apart = 0;
  x.forEach((value, k) => {
    product += value * other[k]!;
    apart += (value - other[k]!) ** 2;
  });
  return (
    scales.constant ** 2 + scales.slope ** 2 * product + scales.bump ** 2 * Math.exp(-apart / (2 * scales.length ** 2))
  );
}

/**
 * The grid that is averaged over: bumps of 0 to 1.6 probits over 0.7 to 2.8 standard deviations, prior weights that
 * fall with the bump (half-normal of deviation 1). Scales are never fitted: on some tens of patches a maximum of the
 * evidence runs to the edge. Own choice.
 */
export const usualGrid: readonly { readonly scales: FlexibleScales; readonly weight: number }[] = [
  { scales: { constant: 1, slope: 1, bump: 0, length: 1 }, weight: 1 },
  ...[0.4, 0.8, 1.6].flatMap((bump) =>
    [0.7, 1.4, 2.8].map((length) => ({
      scales: { constant: 1, slope: 1, bump, length },
      weight: Math.exp(-(bump ** 2) / 2) / 3,
    })),
  ),
];
