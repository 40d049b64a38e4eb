import { formatNumber, fromSI } from "#units";
import type { FrameLayout } from "../frame.ts";
import { markerPlace } from "../frame-plan.ts";
import type { Gate } from "../gate.ts";

/** Limits of what can be measured, from prototypes on synthetic photographs. */
export const frameLimits = {
  /** markers */
  markers: 3,
  /** px, root mean square */
  residual: 1.5,
  /** px/mm */
  pixelsPerMm: 4,
  /** m, from 10 % to 90 % */
  edgeWidth: 0.8e-3,
  /** m, standard error of a place on the coupon */
  spread: 0.1e-3,
} as const;

const list = (ids: readonly number[]): string => [...new Set(ids)].sort((a, b) => a - b).join(", ");

/** Fewer than three planned markers show: which ones do not, and where they are. */
export function tooFewMarkers(layout: FrameLayout, missing: readonly number[]): Gate {
  const named = missing.map((id) => {
    const place = markerPlace(layout, id);
    return place === null ? String(id) : `${id} (${place})`;
  });
  const found = layout.markers.length - missing.length;
  return {
    gate: "markers",
    sentence:
      `Only ${found} of ${layout.markers.length} markers can be read and ${frameLimits.markers} are needed: ` +
      `see that ${named.join(", ")} are uncovered, sharp and free of glare, and take the photograph again.`,
  };
}

/** Markers of a frame that was not planned for this coupon, and none or too few of its own. */
export function otherPlan(layout: FrameLayout, foreign: readonly number[]): Gate {
  return {
    gate: "other plan",
    sentence:
      `The markers in the photograph (${list(foreign)}) belong to another plan than this coupon's ` +
      `(${list(layout.markers.map(({ id }) => id))}): lay the coupon on the frame sheet printed for it.`,
  };
}

/** More than one frame in the picture. */
export function twoCoupons(ids: readonly number[]): Gate {
  return {
    gate: "two coupons",
    sentence: `Two frames are in the photograph (markers ${list(ids)} besides the coupon's own): photograph each coupon alone.`,
  };
}

/** Planned markers show, in places where no camera could see them. */
export const noPose: Gate = {
  gate: "residual",
  sentence:
    "The markers stand nowhere near their planned places: lay the frame sheet flat and check that it is the one printed " +
    "for this coupon.",
};

/** Markers show and the coupon between them does not. */
export const outOfView: Gate = {
  gate: "out of view",
  sentence: "The markers are in the photograph and the coupon is not: move the camera until the patches show.",
};

export interface FrameFigures {
  /** px */
  readonly residual: number;
  readonly pixelsPerMm: number;
  /** m, from 10 % to 90 %; null where no edge was clear */
  readonly edgeWidth: number | null;
  /** m, worst over the part of the coupon that shows */
  readonly spread: number;
}

/** What is wrong with a pose that was found; empty when nothing is. */
export function poseGates(figures: FrameFigures): Gate[] {
  const gates: Gate[] = [];
  const { residual, pixelsPerMm, edgeWidth, spread } = figures;
  const add = (gate: string, sentence: string): number => gates.push({ gate, sentence });
  const bent = !(residual <= frameLimits.residual);
  if (bent) {
    add(
      "residual",
      `The markers lie ${formatNumber(residual, 2)} px off their planned places and ${frameLimits.residual} px is the most: ` +
        "lay the frame sheet flat and check that it is the one printed for this coupon.",
    );
  }
  if (!(pixelsPerMm >= frameLimits.pixelsPerMm)) {
    add(
      "scale",
      `The coupon shows at ${formatNumber(pixelsPerMm, 2)} px/mm and ${frameLimits.pixelsPerMm} px/mm is the least: ` +
        "go nearer until the frame fills 80 to 90 % of the picture, or photograph the patches in parts.",
    );
  }
  if (edgeWidth === null || edgeWidth > frameLimits.edgeWidth) {
    const width = edgeWidth === null ? "unclear" : `${formatNumber(fromSI(edgeWidth, "mm"), 2)} mm wide`;
    add(
      "blur",
      `Edges of the markers are ${width} and ${fromSI(frameLimits.edgeWidth, "mm")} mm is the most: ` +
        "hold the camera still, let it focus on the plate and take the photograph again.",
    );
  }
  // A sheet that is not flat spreads every place; one sentence about it is enough.
  if (!bent && !(spread <= frameLimits.spread)) {
    add(
      "spread",
      `The markers that show place the coupon to ${formatNumber(fromSI(spread, "mm"), 2)} mm only and ` +
        `${fromSI(frameLimits.spread, "mm")} mm is the most: uncover markers on all sides and take the photograph again.`,
    );
  }
  return gates;
}
