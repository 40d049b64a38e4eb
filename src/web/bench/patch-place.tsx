import type { PlannedPatch, Trial } from "#terms";
import { quantityText } from "../show/quantity-text.ts";
import { words } from "../words/index.ts";

interface Props {
  readonly trial: Trial;
  readonly patch: PlannedPatch;
  /** px */
  readonly width: number;
}

const mm = (metres: number): number => 1000 * metres;

/** The coupon to scale, its cut corner at the lower left, with one patch filled. */
export function PatchPlace({ trial, patch, width }: Props) {
  const coupon = trial.coupons.find((c) => c.coupon === patch.coupon);
  if (coupon === undefined) return null;
  const [w, h] = [mm(coupon.width), mm(coupon.height)];
  const corner = Math.min(w, h) / 12;
  const box = (p: PlannedPatch) => ({
    x: mm(p.x),
    y: h - mm(p.y) - mm(p.height),
    width: mm(p.width),
    height: mm(p.height),
  });
  const others = trial.patches
    .filter((p) => p.coupon === patch.coupon && p !== patch)
    .map(box)
    .map((b) => `M${b.x} ${b.y}h${b.width}v${b.height}h${-b.width}z`)
    .join("");
  const label = words.bench.where(patch.patch, coupon.label, quantityText(patch.x, "mm"), quantityText(patch.y, "mm"));
  const pad = Math.max(w, h) / 100;
  return (
    <svg
      className="patch-place"
      role="img"
      aria-label={label}
      width={width}
      height={(width * (h + 2 * pad)) / (w + 2 * pad)}
      viewBox={`${-pad} ${-pad} ${w + 2 * pad} ${h + 2 * pad}`}
    >
      <rect className="coupon" width={w} height={h} />
      <path className="corner" d={`M0 ${h - corner}V${h}H${corner}Z`} />
      <path className="others" d={others} />
      <rect className="here" {...box(patch)} />
    </svg>
  );
}
