import { InvalidInput } from "#units";
import type { Gate } from "../gate.ts";
import { couponReferences } from "../reading/coupon-references.ts";
import type { PatchShot } from "../reading/choose-shot.ts";
import type { PatchReading } from "../reading/patch-reading.ts";
import { type CouponReferences, readPatch, unreadPatch } from "../reading/read-patch.ts";
import { referenceDifference } from "../reading/reference.ts";
import type { CouponPatch, CouponPlan } from "./coupon-plan.ts";
import { fineLines } from "./fine-lines.ts";
import { type PhotoLook, type PhotoSummary, summaryOf } from "./look-at-photo.ts";

/** What all photographs of a coupon say. */
export interface CouponGrading {
  readonly coupon: number;
  /** photographs that were read, and those that were not with their reasons */
  readonly looks: readonly PhotoSummary[];
  /** ΔE00 between bare and coated reference; null where one of them does not show */
  readonly difference: number | null;
  readonly references: CouponReferences | null;
  /** of every patch of the plan, references too, in its order */
  readonly readings: readonly PatchReading[];
  /** what holds for the whole coupon, one sentence each */
  readonly notes: readonly Gate[];
}

/**
 * Joins the photographs of one coupon: each patch is read from the one that shows it darkest, against the coupon's own
 * references. A patch that no photograph shows, and every patch of a coupon without references, is not settled.
 * looks: of this coupon's photographs, in any order; others are left out. Errors: none of the photographs' making.
 */
export function gradeCoupon(plan: CouponPlan, all: readonly PhotoLook[]): CouponGrading {
  const looks = all.filter(({ coupon }) => coupon === plan.coupon);
  const read = looks.filter(({ gates }) => gates.length === 0);
  const shotsOf = (patch: CouponPatch): PatchShot[] => read.flatMap((look) => look.shots.get(patch.patch) ?? []);
  const ofRole = (role: CouponPatch["role"]) =>
    plan.patches
      .filter((p) => p.role === role)
      .map(shotsOf)
      .filter((shots) => shots.length > 0);
  const found = referencesOf(() =>
    couponReferences({
      bare: ofRole("cleaned-reference"),
      coat: ofRole("untouched"),
      lights: read.flatMap(({ light }) => light ?? []),
    }),
  );
  const references = "gate" in found ? null : found;
  const missing = "gate" in found ? [found] : [];
  const readings = plan.patches.map((patch): PatchReading => {
    const shots = shotsOf(patch);
    if (shots.length === 0) return unreadPatch(patch.patch, [outOfSight(patch.patch)]);
    return references === null ? unreadPatch(patch.patch, missing) : readPatch(patch.patch, shots, references);
  });
  return {
    coupon: plan.coupon,
    looks: looks.map(summaryOf),
    difference: references === null ? null : referenceDifference(references.bare, references.coat),
    references,
    readings,
    notes: [...missing, ...fineLines(plan, readings)],
  };
}

const outOfSight = (patch: number): Gate => ({
  gate: "out of sight",
  sentence: `No usable photograph shows patch ${patch} whole and large enough: take one that does.`,
});

/** References, or why there are none. */
function referencesOf(find: () => CouponReferences): CouponReferences | Gate {
  try {
    return find();
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error;
    return {
      gate: "reference",
      sentence:
        error.field === "bare reference"
          ? "No usable photograph shows a cleaned reference patch: without bare metal beside them the patches cannot be read."
          : "No usable photograph shows an untouched patch or the layer between the patches: nothing can be read against it.",
    };
  }
}
