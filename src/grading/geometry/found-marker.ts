/**
 * A place in a picture, px: u to the right, v down, from the upper left corner of the picture. The middle of the first
 * pixel is at (0.5, 0.5).
 */
export interface PixelPoint {
  readonly u: number;
  readonly v: number;
}

/** A place on the plate or its frame, m from the coupon's lower left corner: x to the right, y up. */
export interface PlatePoint {
  readonly x: number;
  readonly y: number;
}

/** Corners in the order of the printed marker: upper left, upper right, lower right, lower left. */
export type Corners = readonly [PixelPoint, PixelPoint, PixelPoint, PixelPoint];

export interface FoundMarker {
  /** number in the marker dictionary */
  readonly id: number;
  readonly corners: Corners;
}

/** One byte per pixel, rows from the top. */
export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** Finds every marker of the dictionary in a picture, planned or not; corners are rough, to a pixel or two. */
export type FindMarkers = (picture: GreyPicture) => readonly FoundMarker[];
