import { type EnquiryFile, type TrialWire, trialFromWire } from "#contract";
import type { StoreReader } from "#store";
import type { Coupon, Trial } from "#terms";
import { invalid } from "#units";
import { NotFound } from "./errors.ts";

/** A trial as it is kept, and in SI. Throws NotFound where the store has none of this id. */
export async function findTrial(reader: StoreReader, id: string): Promise<{ wire: TrialWire; trial: Trial }> {
  const saved = await reader.latest("trial", id);
  if (saved === null) throw new NotFound(`there is no trial ${id.slice(0, 80)}`);
  return { wire: saved.record, trial: trialFromWire(saved.record) };
}

/** The enquiry that a trial belongs to. Throws NotFound where it is not kept. */
export async function enquiryOfTrial(reader: StoreReader, { enquiryId }: Trial): Promise<EnquiryFile> {
  const saved = await reader.latest("enquiry", enquiryId);
  if (saved === null) throw new NotFound(`there is no enquiry ${enquiryId.slice(0, 80)}`);
  return saved.record;
}

export function couponOf(trial: Trial, number: number): Coupon {
  return (
    trial.coupons.find((c) => c.coupon === number) ??
    invalid("coupon", number, "", `one of: ${trial.coupons.map((c) => c.coupon).join(", ")}`)
  );
}
