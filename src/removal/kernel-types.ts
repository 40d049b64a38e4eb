import type { HeldLayer } from "./interlayer.ts";

/** What one event (a pulse, or a line pass over a point) does per unit of fluence, for one remaining thickness. */
export interface KernelNode {
  /** m of strip layers left */
  readonly remaining: number;
  /** K·m²/J, peak rise of the metal's surface */
  readonly metalRise: number;
  /** K·m²/J, peak rise at the interface under the strip layers (the metal's surface, or the layer that stays) */
  readonly interfaceRise: number;
  /** K·m²/J, peak of the thickness-averaged rise of the strip layers */
  readonly meanRise: number;
  /** cells of the strip layers from the top: lower edge m, peak rise K·m²/J, temperature at which the cell is eaten K */
  readonly depth: Float64Array;
  readonly rise: Float64Array;
  readonly eatenAt: Float64Array;
  /** 1 where a cell chars when it is heated slowly, 0 where it does not */
  readonly char: Float64Array;
  /** K·m²/J, peak rise at the top of the layer that stays; 0 when none stays */
  readonly stayRise: number;
  /** share of the light that ends up as heat in metal and staying layers, and in the strip layers */
  readonly heatShare: number;
  readonly stripShare: number;
  /** J/(m³·K) of the topmost layer */
  readonly volumetricHeat: number;
  /** s, time in which the strip layers lose the heat they hold to the metal: (4/π²)·(Σh/k)·(Σρch) */
  readonly relaxation: number;
  /** faces between strip layers, top to bottom; empty for a single layer */
  readonly inner?: readonly InnerFace[];
}

/** A place between two strip layers at which the coat may part. */
export interface InnerFace {
  /** layers above it, top to bottom */
  readonly above: readonly HeldLayer[];
  /** m of strip layers below it */
  readonly left: number;
  /** K·m²/J, peak rise at the face, and mean peak rise above it */
  readonly rise: number;
  readonly meanAbove: number;
}

export interface Kernel {
  /** s, as handed to the column: square length, or 1/e² full width of a Gaussian in time */
  readonly duration: number;
  readonly shape: "square" | "gaussian";
  /** s, the time that goes into the interface criterion (FWHM for a Gaussian) */
  readonly reactionTime: number;
  /** ascending in `remaining`; the first node is the bare face */
  readonly nodes: readonly KernelNode[];
  /** the strip layers turned to char, by what is left of it; empty where no layer chars; worked out when first asked */
  readonly charNodes: () => readonly CharNode[];
}

/** What one event does to a char that is left on the metal (or on the layer that stays), per unit of fluence. */
export interface CharNode {
  /** m of char, in the room of the layer that it came from; ascending from node to node */
  readonly remaining: number;
  /** kg/m³ */
  readonly density: number;
  /** cells from the top: thickness m, peak rise K·m²/J, time near the peak s */
  readonly width: Float64Array;
  readonly rise: Float64Array;
  readonly time: Float64Array;
  /** share of the light that the char takes */
  readonly share: number;
  /** K·m²/J, peak rise of the metal's surface */
  readonly metalRise: number;
}
