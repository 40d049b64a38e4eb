/** Place in a picture, px: u to the right, v down, from the upper left corner; the middle of the first pixel is at 0.5, 0.5. */
export interface PixelPoint {
  readonly u: number;
  readonly v: number;
}

/** Of a printed marker: upper left, upper right, lower right, lower left. */
export type Corners = readonly [PixelPoint, PixelPoint, PixelPoint, PixelPoint];
