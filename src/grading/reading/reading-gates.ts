import { formatNumber } from "#units";
import type { Gate } from "../gate.ts";
import type { LightCalibration } from "./light-calibration.ts";

/** Limits of light and colour beyond which nothing is graded, from prototypes on synthetic photographs. */
export const readingLimits = {
  /** share of the white step's, or of a patch's, pixels that are clipped */
  clipped: 0.2,
  /** ln light, rms of the grey steps */
  card: 0.12,
  /** ln light, layer around a patch against the layer elsewhere */
  ring: 0.05,
  /** ΔE00 between bare and coated reference */
  difference: 8,
  /** L* between the two darkest photographs of a patch */
  spread: 2,
  /** share of white by which the layer around a patch gleams in the darkest photograph */
  gleam: 0.01,
} as const;

const percent = (share: number): string => `${formatNumber(100 * share, 2)} %`;

/** Reasons not to grade a photograph by its light: white clipped, greys that do not fit. Empty when there is none. */
export function lightGates({
  whiteClipped,
  cardResidual,
}: Pick<LightCalibration, "whiteClipped" | "cardResidual">): Gate[] {
  const gates: Gate[] = [];
  if (!(whiteClipped <= readingLimits.clipped)) {
    gates.push({
      gate: "clipped",
      sentence:
        `${percent(whiteClipped)} of the white step is clipped and ${percent(readingLimits.clipped)} is the most: ` +
        "lock the exposure on the grey strip, a little darker, and take the photograph again.",
    });
  }
  if (!(cardResidual <= readingLimits.card)) {
    gates.push({
      gate: "card",
      sentence:
        `The grey steps do not fit the light by ${percent(cardResidual)} and ${percent(readingLimits.card)} is the most: ` +
        "keep glare and shadow off both strips, turn filters and HDR off and take the photograph again.",
    });
  }
  return gates;
}

/** The layer around a patch is darker than elsewhere: a shadow lies there. residual: ln light; null when it is not. */
export function shadowGate(patch: number, residual: number | null): Gate | null {
  if (residual === null || residual >= -readingLimits.ring) return null;
  return {
    gate: "shadow",
    sentence:
      `The coating around patch ${patch} is ${percent(-Math.expm1(residual))} darker than elsewhere and ` +
      `${percent(readingLimits.ring)} is the most: move what throws the shadow and take the photograph again.`,
  };
}

/** Too many of a patch's own pixels are clipped; null when not. */
export function clippedGate(patch: number, share: number): Gate | null {
  if (share <= readingLimits.clipped) return null;
  return {
    gate: "clipped",
    sentence:
      `${percent(share)} of patch ${patch} is clipped and ${percent(readingLimits.clipped)} is the most: ` +
      "take a darker photograph or turn the plate out of the glare.",
  };
}

/** Bare and coated reference look too alike; null when they do not. difference: ΔE00. */
export function differenceGate(difference: number): Gate | null {
  if (difference >= readingLimits.difference) return null;
  return {
    gate: "difference",
    sentence:
      `Bare metal and coating differ by ΔE00 ${formatNumber(difference, 2)} and ${readingLimits.difference} is the least: ` +
      "photographs cannot settle the residue here, so measure it another way.",
  };
}

/** What the spread between photographs means: too large, or not known because there is one only; null when all is well. */
export function spreadFlag(patch: number, spread: number | null): Gate | null {
  if (spread === null) {
    return {
      gate: "one photograph",
      sentence: `Patch ${patch} is in one usable photograph only, so that glare on it would go unseen: take four, turning the plate.`,
    };
  }
  if (spread <= readingLimits.spread) return null;
  return {
    gate: "spread",
    sentence:
      `Only one photograph shows patch ${patch} as dark as it was read (the next is ${formatNumber(spread, 2)} L* brighter): ` +
      "look at it, or take another photograph with the plate turned.",
  };
}

/** The layer around a patch gleams even where the patch is darkest; null when it does not. gleam: share of white. */
export function gleamFlag(patch: number, gleam: number): Gate | null {
  if (gleam <= readingLimits.gleam) return null;
  return {
    gate: "gleam",
    sentence:
      `The coating around patch ${patch} gleams by ${percent(gleam)} of white even in the photograph that shows it darkest: ` +
      "move the lamp or the camera and take the photographs again.",
  };
}
