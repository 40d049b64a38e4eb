import type { PhysicsFlags } from "./load.ts";
import type { SweepFlags } from "./progress.ts";
import type { SourceFlags } from "./report-source.ts";

export interface ReportFlags extends PhysicsFlags, SweepFlags, SourceFlags {
  /** name on the paper; enquiry and day when left out */
  readonly documentId?: string;
  /** also procedure, commissioning sheet and offer */
  readonly papers?: boolean;
  readonly language?: string;
  readonly revision?: string;
  readonly validUntil?: string;
  /** file of the shop's own figures */
  readonly shop?: string;
  readonly approver?: string;
  readonly date?: string;
  readonly out: string;
}
