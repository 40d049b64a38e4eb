import type { PlannedPatch, Trial } from "#terms";
import { fromSI } from "#units";

interface Props {
  readonly trial: Trial;
  readonly patch: PlannedPatch;
  /** address of the photograph laid flat */
  readonly photo: string;
  readonly label: string;
}

/** mm of its surroundings that are shown around a patch */
const AROUND = 1.2;

/** One patch cut out of the coupon laid flat and enlarged. */
export function PatchCrop({ trial, patch, photo, label }: Props) {
  const coupon = trial.coupons.find((c) => c.coupon === patch.coupon);
  if (coupon === undefined) return null;
  const [width, height] = [fromSI(coupon.width, "mm"), fromSI(coupon.height, "mm")];
  const x = fromSI(patch.x, "mm");
  const y = height - fromSI(patch.y, "mm") - fromSI(patch.height, "mm");
  const box = [x - AROUND, y - AROUND, fromSI(patch.width, "mm") + 2 * AROUND, fromSI(patch.height, "mm") + 2 * AROUND];
  return (
    <figure className="crop">
      <svg viewBox={box.map((v) => v.toFixed(3)).join(" ")} role="img" aria-label={label}>
        <image href={photo} x="0" y="0" width={width} height={height} preserveAspectRatio="none" />
      </svg>
      <figcaption className="small">{label}</figcaption>
    </figure>
  );
}
