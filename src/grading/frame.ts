/**
 * The frame sheet that a coupon lies on when it is photographed: markers around the plate and two strips of grey steps.
 * Positions as on a coupon: m from the coupon's lower left corner, x to the right, y up; the frame reaches beyond it on all
 * sides, so that some positions are negative.
 */
export interface FrameMarker {
  /** number in the marker dictionary; planned for this coupon and no other of the trial */
  readonly id: number;
  /** m, lower left corner of the black square */
  readonly x: number;
  readonly y: number;
  /** m, side of the black square */
  readonly size: number;
}

/** A printed grey step. */
export interface GreyStep {
  /** m, lower left corner */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** CIELAB lightness as printed (nominal) or as measured */
  readonly lightness: number;
}

export interface FrameLayout {
  /** m */
  readonly couponWidth: number;
  readonly couponHeight: number;
  readonly markers: readonly FrameMarker[];
  readonly greys: readonly GreyStep[];
  /** whether the lightness of the steps was measured after printing; L* is only relative where it was not */
  readonly greysMeasured: boolean;
}

/** A picture as decoded, upright: rows from the top, three bytes per pixel (sRGB or Display-P3 codes). */
export interface Photo {
  readonly width: number;
  readonly height: number;
  readonly rgb: Uint8Array;
  readonly space: "srgb" | "display-p3";
}
