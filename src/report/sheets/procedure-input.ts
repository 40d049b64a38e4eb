import type { Delivery, LaserSetup, Metre, PartEnquiry, Setting } from "#terms";
import type { Footing } from "./footing.ts";
import type { PaperHead } from "./paper-head.ts";

/** How the beam is led over the part. */
export interface ScanPlan {
  readonly pattern: "both-ways" | "one-way" | "crossed" | "hand-line";
  /** m, or null where it is not stated */
  readonly lineLength: Metre | null;
  /** direction, order of fields, where to begin; "" where there is nothing to say */
  readonly note: string;
}

/**
 * What a procedure sheet is made of. SI. Free texts are printed as they come, in no matter which language. What is
 * null is printed as a blank to fill in or as "not stated", never guessed.
 */
export interface ProcedureInput extends PaperHead {
  /** the part with its layers, faces and acceptance */
  readonly part: PartEnquiry;
  readonly setup: LaserSetup;
  /** must lie within the limits of the set-up, see `checkSetting` of #beam */
  readonly setting: Setting;
  /** anything but "proven" is printed as "not proven: for trial only" */
  readonly footing: Footing;
  readonly delivery: Delivery;
  /** m from the head's edge to the work as the maker of the head counts it, or null */
  readonly standOff: Metre | null;
  readonly scan: ScanPlan;
  /** marking of the eyewear that the laser safety officer has set, or null */
  readonly eyewear: string | null;
  /** breathing protection as the employer has set it, or null */
  readonly respiratory: string | null;
  /** gloves, hearing protection and the like */
  readonly otherPpe: readonly string[];
  /** at least one, most pressing first: `cautionsFor` of #safety */
  readonly cautions: readonly string[];
  /** stop rules of this very job beside the usual ones */
  readonly furtherStops: readonly string[];
  /** checks of this very job beside the usual ones, done before the start */
  readonly furtherChecks: readonly string[];
}
