import { gradedCouponSvg, type MarkedPatch } from "#drawing";
import { type GradedCoupon, type GradedPatch, rectifiedCoupon } from "#grading";
import { decodePhoto, encodeJpeg } from "#photos";
import { bestLook } from "#workflows";
import { type PhotoFile, readPhoto } from "./photo-list.ts";

/** A graded coupon as one SVG with its photograph, laid flat, inside. */
export async function gradedPicture(
  graded: GradedCoupon,
  files: readonly PhotoFile[],
  cautions: readonly string[],
): Promise<string> {
  const { frame, label } = graded.plan;
  const look = bestLook(graded);
  const file = look === null ? undefined : files.find(({ name }) => name === look.photo);
  let photo: string | null = null;
  if (look !== null && file !== undefined) {
    // Decoded once more rather than kept: many photographs would not fit in memory.
    const decoded = await decodePhoto(await readPhoto(file), file.name);
    const jpeg = await encodeJpeg(rectifiedCoupon(decoded.photo, look.map, frame));
    photo = `data:image/jpeg;base64,${Buffer.from(jpeg).toString("base64")}`;
  }
  return gradedCouponSvg(markedPatches(graded), {
    width: frame.couponWidth,
    height: frame.couponHeight,
    label,
    trial: graded.trialId,
    photo,
    cautions,
    trueSize: true,
  });
}

function markedPatches({ plan, patches }: GradedCoupon): MarkedPatch[] {
  return plan.patches.map(({ patch, x, y, width, height }, k): MarkedPatch => {
    const graded = patches[k]!;
    return { patch, x, y, width, height, ...stateOf(graded) };
  });
}

function stateOf({
  role,
  verdict,
  ruling,
  outcome,
  reading,
}: GradedPatch): Omit<MarkedPatch, "patch" | "x" | "y" | "width" | "height"> {
  const said = ruling !== null && (ruling.residueFraction !== null || ruling.metalCondition !== null);
  return {
    reference: role === "untouched" || role === "cleaned-reference",
    verdict,
    residue: outcome === null ? (reading.residue?.value ?? null) : outcome.residueFraction,
    detectionLimit:
      ruling !== null && ruling.residueFraction !== null ? null : (reading.residue?.detectionLimit ?? null),
    metalCondition: outcome?.metalCondition ?? null,
    ruled: ruling === null ? null : said ? "overruled" : "accepted",
  };
}
