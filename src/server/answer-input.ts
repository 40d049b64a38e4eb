import type { EnquiryFile, GradingWire, ShopFile } from "#contract";
import type { Saved, StoreReader } from "#store";
import { NotFound } from "./errors.ts";
import { lastChange } from "./last-change.ts";
import { learntLapse } from "./learnt-lapse.ts";
import { type KeptFile, storeLibrary } from "./store-library.ts";
import type { AnswerWork } from "./work-answer.ts";

/** What an answer stands on, as it is kept now: the enquiry, its trials with outcomes, the shop figures, and the share of wrong grades. */
export async function answerInput(
  reader: StoreReader,
  id: string,
): Promise<{
  readonly enquiry: Saved<EnquiryFile>;
  readonly trials: AnswerWork["trials"];
  readonly gradings: readonly GradingWire[];
  /** version 0 and no figure while nobody entered any */
  readonly shop: { readonly version: number; readonly file: ShopFile };
  /** own library files in the order in which they are taken in */
  readonly library: readonly KeptFile[];
  readonly lapse: Pick<AnswerWork, "lapse">;
  /** when anything of this was last saved */
  readonly changedAt: string | null;
}> {
  const enquiry = await reader.latest("enquiry", id);
  if (enquiry === null) throw new NotFound(`there is no enquiry ${id.slice(0, 80)}`);
  const trials = [];
  // In the order of their names, so that the same records give the same answer whenever they were saved.
  const kept = (await reader.list("trial", id)).sort((a, b) => (a.id < b.id ? -1 : 1));
  for (const { id: trial, record } of kept) trials.push({ trial: record, outcomes: await reader.outcomes(trial) });
  // One share for all trials of the answer, whichever of them people looked at.
  const gradings = (await reader.list("grading", id)).map((g) => g.record);
  const own = await reader.latest("shop-record", id);
  const shop = own === null ? { version: 0, file: {} } : { version: own.version, file: own.record.shop };
  return {
    enquiry,
    trials,
    gradings,
    shop,
    library: (await storeLibrary(reader)).files,
    lapse: learntLapse(gradings),
    changedAt: await lastChange(reader, id),
  };
}
