import { z } from "zod";
import type { PatchSpacing, PlannedPatch, Trial } from "#terms";
import { InvalidInput } from "#units";
import { finite, idField, lineField, share, words } from "./fields.ts";
import { settingSchema } from "./setting-schema.ts";
import { settingFromWire, settingToWire } from "./setting-wire.ts";
import { InvalidInputs, validate } from "./validate.ts";
import { into, out, outOrNull } from "./wire-numbers.ts";

const position = finite.min(0).max(1e5);
const side = finite.gt(0).max(1e5);

const patchSchema = z.strictObject({
  patch: z.int().min(1).max(100_000),
  coupon: z.int().min(1).max(10_000),
  x_mm: position,
  y_mm: position,
  width_mm: side,
  height_mm: side,
  role: z.enum(["test", "replicate", "untouched", "cleaned-reference"]),
  setting: settingSchema.nullable().meta({ description: "null for a patch that no setting is planned for" }),
  runOrder: z.int().min(0).max(100_000).meta({ description: "from 1 in the randomised order; 0 for untouched" }),
  wait_s: finite
    .min(0)
    .max(1e6)
    .optional()
    .meta({ description: "to wait after the burn before, so that its heat has spread" }),
  replicateOf: z.int().min(1).nullable(),
  predictedClean: share.nullable(),
  predictedUndamaged: share.nullable(),
});

const rise = finite.min(0).max(1e5);

const spacingSchema = z.strictObject({
  gap_mm: position.meta({ description: "between neighbouring patches" }),
  gapNeeded_mm: position
    .nullable()
    .meta({ description: "would do without any wait; null when no gap on this coupon does" }),
  wait_s: finite.min(0).max(1e6).meta({ description: "longest wait before a patch" }),
  limit_K: rise.meta({ description: "that earlier patches may have warmed a patch by when it is burned" }),
  warmest_K: rise.meta({ description: "highest that the plan comes to" }),
  couponRise_K: rise.meta({ description: "mean rise of a coupon after its last patch" }),
  words: z.string().max(2000),
});

export const trialSchema = z
  .strictObject({
    id: idField,
    enquiry: idField,
    part: idField,
    laser: idField,
    design: lineField,
    seed: z.int().min(0),
    coupons: z
      .array(z.strictObject({ coupon: z.int().min(1), width_mm: side, height_mm: side, label: lineField }))
      .min(1)
      .max(10_000),
    patches: z.array(patchSchema).min(1).max(10_000),
    spacing: spacingSchema.optional().meta({ description: "what keeps the heat of one patch from the next" }),
    reasons: words,
    cautions: words.default([]),
    modelVersion: z.string().max(300),
  })
  .meta({ id: "trial", title: "Scourlight trial" });

export type TrialWire = z.output<typeof trialSchema>;

function patchToWire(patch: PlannedPatch): TrialWire["patches"][number] {
  return {
    patch: patch.patch,
    coupon: patch.coupon,
    x_mm: out(patch.x, "mm"),
    y_mm: out(patch.y, "mm"),
    width_mm: out(patch.width, "mm"),
    height_mm: out(patch.height, "mm"),
    role: patch.role,
    setting: patch.setting === null ? null : settingToWire(patch.setting),
    runOrder: patch.runOrder,
    ...(patch.wait === undefined ? {} : { wait_s: out(patch.wait, "s") }),
    replicateOf: patch.replicateOf,
    predictedClean: outOrNull(patch.predictedClean, ""),
    predictedUndamaged: outOrNull(patch.predictedUndamaged, ""),
  };
}

function spacingToWire(spacing: PatchSpacing): NonNullable<TrialWire["spacing"]> {
  return {
    gap_mm: out(spacing.gap, "mm"),
    gapNeeded_mm: outOrNull(spacing.gapNeeded, "mm"),
    wait_s: out(spacing.wait, "s"),
    limit_K: out(spacing.limit, "K"),
    warmest_K: out(spacing.warmest, "K"),
    couponRise_K: out(spacing.couponRise, "K"),
    words: spacing.words,
  };
}

function spacingFromWire(wire: NonNullable<TrialWire["spacing"]>): PatchSpacing {
  return {
    gap: into(wire.gap_mm, "mm"),
    gapNeeded: wire.gapNeeded_mm === null ? null : into(wire.gapNeeded_mm, "mm"),
    wait: into(wire.wait_s, "s"),
    limit: into(wire.limit_K, "K"),
    warmest: into(wire.warmest_K, "K"),
    couponRise: into(wire.couponRise_K, "K"),
    words: wire.words,
  };
}

/** A trial in the units of a file; what `plan --json` prints and the store keeps. */
export function trialToWire(trial: Trial, cautions: readonly string[]): TrialWire {
  return {
    id: trial.id,
    enquiry: trial.enquiryId,
    part: trial.partId,
    laser: trial.setupId,
    design: trial.design,
    seed: trial.seed,
    coupons: trial.coupons.map((c) => ({
      coupon: c.coupon,
      width_mm: out(c.width, "mm"),
      height_mm: out(c.height, "mm"),
      label: c.label,
    })),
    patches: trial.patches.map(patchToWire),
    ...(trial.spacing === undefined ? {} : { spacing: spacingToWire(trial.spacing) }),
    reasons: [...trial.reasons],
    cautions: [...cautions],
    modelVersion: trial.modelVersion,
  };
}

/** The inverse of `trialToWire`. */
export function trialFromWire(wire: TrialWire): Trial {
  return {
    id: wire.id,
    enquiryId: wire.enquiry,
    partId: wire.part,
    setupId: wire.laser,
    design: wire.design,
    seed: wire.seed,
    coupons: wire.coupons.map((c) => ({
      coupon: c.coupon,
      width: into(c.width_mm, "mm"),
      height: into(c.height_mm, "mm"),
      label: c.label,
    })),
    patches: wire.patches.map(({ x_mm, y_mm, width_mm, height_mm, wait_s, setting, ...same }) => ({
      ...same,
      ...(wait_s === undefined ? {} : { wait: into(wait_s, "s") }),
      x: into(x_mm, "mm"),
      y: into(y_mm, "mm"),
      width: into(width_mm, "mm"),
      height: into(height_mm, "mm"),
      setting: setting === null ? null : settingFromWire(setting),
    })),
    ...(wire.spacing === undefined ? {} : { spacing: spacingFromWire(wire.spacing) }),
    reasons: wire.reasons,
    modelVersion: wire.modelVersion,
  };
}

/** A trial file that nobody has checked, as it is kept: its own cautions stay with it. Throws InvalidInputs. */
export function parseTrialWire(json: unknown): TrialWire {
  const wire = validate(trialSchema, json, "trial");
  const problems: InvalidInput[] = [];
  const coupons = new Set(wire.coupons.map((c) => c.coupon));
  const seen = new Set<number>();
  wire.patches.forEach((patch, i) => {
    if (seen.has(patch.patch)) {
      problems.push(new InvalidInput(`patches[${i}].patch`, patch.patch, "", "must differ from the other patches"));
    }
    seen.add(patch.patch);
    if (!coupons.has(patch.coupon)) {
      problems.push(new InvalidInput(`patches[${i}].coupon`, patch.coupon, "", "is not one of the coupons"));
    }
  });
  if (problems.length > 0) throw new InvalidInputs(problems);
  return wire;
}

/** A trial file that nobody has checked, in SI. Throws InvalidInputs. */
export function parseTrial(json: unknown): Trial {
  return trialFromWire(parseTrialWire(json));
}

/** True for the same plan, whatever its cautions; by way of SI, where a plan sent back and forth comes out the same. */
export function samePlan(a: TrialWire, b: TrialWire): boolean {
  const plain = (wire: TrialWire) => JSON.stringify(trialToWire(trialFromWire(wire), []));
  return plain(a) === plain(b);
}
