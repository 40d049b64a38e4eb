import type { LaserSetup, PartEnquiry, Ratio, Setting } from "#terms";
import type { Footing } from "./footing.ts";
import type { PaperHead } from "./paper-head.ts";

/** A patch to burn before production, and what it must show. */
export interface VerificationPatch {
  readonly label: string;
  readonly setting: Setting;
  /** for example "clean and undamaged", or "residue left: the edge is where it was" */
  readonly mustShow: string;
}

/** A check that comes back; null prints a blank for the approver. */
export interface Recheck {
  readonly what: string;
  readonly interval: string | null;
  readonly limits: string | null;
}

/** What a commissioning sheet is made of. SI. What is null is a blank to fill in, never guessed. */
export interface CommissioningInput extends PaperHead {
  readonly part: PartEnquiry;
  readonly setup: LaserSetup;
  /** of the procedure sheet; must lie within the limits of the set-up */
  readonly setting: Setting;
  readonly footing: Footing;
  /** share that a power reading may be off either way, for example 0.05; null: the approver sets it */
  readonly powerTolerance: Ratio | null;
  /** share that the spot may be off either way, or null */
  readonly spotTolerance: Ratio | null;
  /** at least one */
  readonly verification: readonly VerificationPatch[];
  /** empty: the usual six stand there with blanks for how often and how much */
  readonly rechecks: readonly Recheck[];
  /** lines for operators, 1 to 20 */
  readonly operatorLines: number;
  /** at least one, most pressing first */
  readonly cautions: readonly string[];
}
