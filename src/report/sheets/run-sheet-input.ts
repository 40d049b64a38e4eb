import type { Acceptance, LaserSetup, Trial } from "#terms";
import type { PaperHead } from "./paper-head.ts";

/** What a coupon run sheet is made of. SI. The same trial and set-up as the run sheet file. */
export interface RunSheetInput extends PaperHead {
  readonly trial: Trial;
  readonly setup: LaserSetup;
  readonly partName: string;
  /** says which readings are wanted: residue and metal condition always, temperature where it is limited, each test */
  readonly acceptance: Acceptance;
  /** at least one, most pressing first */
  readonly cautions: readonly string[];
}
