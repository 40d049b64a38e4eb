import type { FrameLayout } from "#grading";
import type { CoatKind, MetalKind, Rgb } from "./colours.ts";

/** A patch as planned, m from the coupon's lower left corner. */
export interface PhotoPatch {
  readonly patch: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly role: "test" | "replicate" | "untouched" | "cleaned-reference";
}

/** What happened to a patch. Anything here may be said instead of drawn. */
export interface PatchDraw {
  /** share of the area that residue covers */
  readonly residue: number;
  /** m */
  readonly island: number;
  /** length over width of islands, and their direction, rad */
  readonly stretch: number;
  readonly angle: number;
  /** least hiding of the residue: 1 for islands as thick as the coat */
  readonly film: number;
  /** hiding of an even haze over the bare part */
  readonly haze: number;
  /** standard deviation over mean of bare reflectance, and the size of its blotches, m */
  readonly mottle: number;
  readonly blotch: number;
  /** factors on red, green and blue of the metal */
  readonly tint: Rgb;
  /** share of the patch that melted; gain of its glints */
  readonly melt: number;
  readonly glint: number;
  /** null without; spacing m, direction across them rad, how far residue follows them, shade on bare metal */
  readonly stripes: {
    readonly spacing: number;
    readonly angle: number;
    readonly depth: number;
    readonly shade: number;
  } | null;
}

export interface PlateSpec {
  readonly seed: number;
  readonly frame: FrameLayout;
  readonly patches: readonly PhotoPatch[];
  readonly metal?: MetalKind;
  readonly coat?: CoatKind;
  /** said for all test patches, or for one by its number */
  readonly say?: Partial<PatchDraw>;
  readonly sayPatch?: Readonly<Record<number, Partial<PatchDraw>>>;
  /** standard deviation of the error of a printed grey step, L*; as stated where nothing is said */
  readonly greyError?: number;
  /** m, how far the edges of patches wander to either side; drawn to 0.05 mm where nothing is said */
  readonly wobble?: number;
}
