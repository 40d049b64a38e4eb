import type { GradingWire } from "#contract";
import type { MarkedPatch } from "#drawing";
import type { GradedFigure } from "#report";
import type { Trial } from "#terms";
import { toSI } from "#units";

/** The patches of a graded coupon as they are marked on its photograph. Patches that the trial does not have are left out. */
export function markedPatches(trial: Trial, grading: GradingWire): MarkedPatch[] {
  const share = (percent: number): number => toSI(percent, "%");
  return grading.patches.flatMap(({ patch, role, verdict, reading, ruling, outcome }) => {
    const place = trial.patches.find((p) => p.patch === patch && p.coupon === grading.coupon);
    if (place === undefined) return [];
    const { x, y, width, height } = place;
    const residue = outcome === null ? (reading.residue?.value_percent ?? null) : outcome.residue_percent;
    const said = ruling !== null && (ruling.residue_percent !== null || ruling.metalCondition !== null);
    const limit = ruling?.residue_percent === undefined || ruling?.residue_percent === null ? reading.residue : null;
    return [
      {
        patch,
        x,
        y,
        width,
        height,
        reference: role === "untouched" || role === "cleaned-reference",
        verdict,
        residue: residue === null ? null : share(residue),
        detectionLimit: limit === null ? null : share(limit.detectionLimit_percent),
        metalCondition: outcome?.metalCondition ?? null,
        ruled: ruling === null ? null : said ? "overruled" : "accepted",
      } satisfies MarkedPatch,
    ];
  });
}

/** A graded coupon as a report shows it. photo: its picture as a data address. Null for a coupon that the trial lacks. */
export function gradedFigure(trial: Trial, grading: GradingWire, photo: string | null): GradedFigure | null {
  const coupon = trial.coupons.find((c) => c.coupon === grading.coupon);
  if (coupon === undefined) return null;
  const patches = markedPatches(trial, grading);
  return {
    trialId: trial.id,
    coupon,
    patches,
    photo,
    read: grading.photos.filter((p) => p.read).length,
    photographs: grading.photos.length,
    looked: patches.filter((p) => p.ruled !== null).length,
    overruled: patches.filter((p) => p.ruled === "overruled").length,
  };
}
