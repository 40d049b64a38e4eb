import type { PlannedPatch, Setting, Trial } from "#terms";
import { requireInteger } from "#units";

/**
 * A trial with a further batch of patches on coupons of their own: numbers of coupons, patches and turns go on where the
 * trial ended, nothing that was planned before changes. A setting that was burned before counts as its repeat.
 * batch: planned as a trial of its own on the same set-up; number: of the batch, from 2; same: whether two settings are one.
 */
export function addBatch(
  trial: Trial,
  batch: Pick<Trial, "coupons" | "patches" | "reasons" | "spacing">,
  number: number,
  same: (a: Setting, b: Setting) => boolean,
): Trial {
  requireInteger("batch", number, 2, 1000);
  const most = (of: (patch: PlannedPatch) => number): number => Math.max(0, ...trial.patches.map(of));
  const [patches, turns] = [most((p) => p.patch), most((p) => p.runOrder)];
  const coupons = Math.max(0, ...trial.coupons.map((c) => c.coupon));
  const burnedAs = (setting: Setting | null): number | null =>
    setting === null
      ? null
      : (trial.patches.find((p) => p.setting !== null && p.replicateOf === null && same(p.setting, setting))?.patch ??
        null);
  const moved = batch.patches.map((p): PlannedPatch => {
    const earlier = burnedAs(p.setting);
    const replicateOf = earlier ?? (p.replicateOf === null ? null : p.replicateOf + patches);
    return {
      ...p,
      patch: p.patch + patches,
      coupon: p.coupon + coupons,
      role: earlier !== null && p.role === "test" ? "replicate" : p.role,
      runOrder: p.runOrder === 0 ? 0 : p.runOrder + turns,
      replicateOf,
    };
  });
  return {
    ...trial,
    coupons: [
      ...trial.coupons,
      ...batch.coupons.map((c) => ({
        ...c,
        coupon: c.coupon + coupons,
        label: `${c.coupon + coupons}, batch ${number}`,
      })),
    ],
    patches: [...trial.patches, ...moved],
    reasons: [...trial.reasons, ...batch.reasons.map((reason) => `Batch ${number}: ${reason}`)],
  };
}

/** Whether a trial is another one with batches added: what was planned before stands unchanged. */
export function isLaterStage(earlier: Trial, later: Trial): boolean {
  const equal = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
  const head = ({ id, enquiryId, partId, setupId, design, seed }: Trial) => [
    id,
    enquiryId,
    partId,
    setupId,
    design,
    seed,
  ];
  return (
    equal(head(earlier), head(later)) &&
    equal(earlier.coupons, later.coupons.slice(0, earlier.coupons.length)) &&
    equal(earlier.patches, later.patches.slice(0, earlier.patches.length))
  );
}
