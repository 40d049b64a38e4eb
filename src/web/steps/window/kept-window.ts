import type { Acceptance } from "#terms";
import type { TrialRecord } from "../../api/trials.ts";
import type { PartDoc } from "../../enquiry/doc.ts";
import type { WindowAnswer } from "../../live/protocol.ts";
import { useKeptAnswer } from "../../live/use-long-work.ts";
import { lapseOf, useGradings } from "../../photographs/use-gradings.ts";

/** A fitted window holds for as long as part, outcomes, sureness and the share of wrong grades stay the same. */
export const windowKey = (
  enquiryId: string,
  part: PartDoc,
  record: TrialRecord | undefined,
  percent: number,
  lapse: number | undefined,
): string => JSON.stringify([enquiryId, part, record?.trial.id, record?.outcomes, percent, lapse]);

/** Per cent of sureness that is asked for where nobody chose another. */
export const usualPercent = (acceptance: Pick<Acceptance, "confidence"> | null): number =>
  Math.round(100 * (acceptance?.confidence ?? 0.8));

/** The window that was fitted on this page for the part's trial on a laser, at the usual sureness; null where none was. */
export function useKeptWindow(
  enquiryId: string,
  part: PartDoc,
  acceptance: Acceptance | null,
  trials: readonly TrialRecord[],
  setupId: string,
): WindowAnswer | null {
  const record = trials.find((t) => t.trial.setupId === setupId);
  const lapse = lapseOf(useGradings(record?.trial.id ?? "") ?? []);
  const key = record === undefined ? "" : windowKey(enquiryId, part, record, usualPercent(acceptance), lapse);
  return useKeptAnswer("window", key);
}
