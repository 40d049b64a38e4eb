import type { Lab } from "../colour-difference.ts";
import type { Gate } from "../gate.ts";
import type { Measured } from "./estimate.ts";
import type { Melt } from "./melt.ts";
import type { Residue } from "./residue.ts";
import type { Streaks } from "./streaks.ts";
import type { Tint } from "./tint.ts";

/** What photographs say of one patch; null where they say nothing. */
export interface PatchReading {
  readonly patch: number;
  /** photograph that everything was read from; null when none was fit */
  readonly photo: string | null;
  /** why the residue is not settled; empty when it is */
  readonly refusals: readonly Gate[];
  /** what a person should look at */
  readonly flags: readonly Gate[];
  /** null when it is not settled: that never means clean */
  readonly residue: Residue | null;
  /** CIELAB of the whole patch, D65/2° */
  readonly lab: Lab | null;
  readonly lightness: Measured | null;
  /** true when the greys were measured, so that L* is absolute; otherwise it compares patches of this coupon only */
  readonly absolute: boolean;
  readonly melt: Melt | null;
  /** melt index of the bare reference, which the patch's is held against */
  readonly referenceMelt: number;
  readonly tint: Tint | null;
  /** mm */
  readonly raggedness: Measured | null;
  readonly streaks: Streaks | null;
  /** L* between the two darkest photographs; null with one */
  readonly photoSpread: number | null;
}
