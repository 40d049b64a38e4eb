import { InvalidInput } from "#units";
import { labFromLinear } from "../colour-space.ts";
import type { Gate } from "../gate.ts";
import { barePart } from "./bare-part.ts";
import { chooseShot, type PatchShot } from "./choose-shot.ts";
import { edgeRaggedness } from "./edge-raggedness.ts";
import type { Measured } from "./estimate.ts";
import { type Melt, meltOf } from "./melt.ts";
import type { PatchReading } from "./patch-reading.ts";
import { differenceGate, gleamFlag } from "./reading-gates.ts";
import { type Reference, referenceDifference } from "./reference.ts";
import { type Residue, residueOf } from "./residue.ts";
import { ringGleam } from "./ring-gleam.ts";
import { type Streaks, streaksOf } from "./streaks.ts";
import { tintOf } from "./tint.ts";
import { bareScatter, unmix } from "./unmix.ts";
import { innerView, type PatchView } from "./view.ts";

/** What a coupon's patches are read against. */
export interface CouponReferences {
  readonly bare: Reference;
  readonly coat: Reference;
  /** melt index of the bare reference (`meltIndexOf`); 0 when no patch shows it */
  readonly bareMelt: number;
  /** whether the greys were measured */
  readonly absolute: boolean;
}

/** Share of the difference between the two darkest photographs that is doubt (own choice, held by tests). */
const DOUBT = 0.3;
/** L* up to which such a difference is doubt; beyond it the brighter one plainly shows glare. */
const DOUBT_UP_TO = 5;
/** Places of a photograph differ by this in L* besides what the fit of the light says (own choice). */
const PLACE_SPREAD = 0.2;
/** Pixels each way below which no streaks are sought. */
const STREAK_PIXELS = 32;

/** Melt index of a view of bare metal. Errors: InvalidInput for a view that is too small. */
export function meltIndexOf(view: PatchView, { bare, coat }: Pick<CouponReferences, "bare" | "coat">): number {
  const inner = innerView(view);
  const part = barePart(inner, unmix(inner, bare, coat));
  return part === null ? 0 : meltOf(part).index.value;
}

function meanColour({ rgb }: PatchView): [number, number, number] {
  const sum: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < rgb.length; i += 1) sum[i % 3]! += rgb[i]!;
  return [(3 * sum[0]) / rgb.length, (3 * sum[1]) / rgb.length, (3 * sum[2]) / rgb.length];
}

/** Residue of one shot; the second darkest widens the doubt. */
function residueFrom(inner: PatchView, next: PatchView | null, { bare, coat }: CouponReferences): Residue {
  const scatter = bareScatter(bare, coat);
  const residue = residueOf(unmix(inner, bare, coat), scatter);
  if (next === null) return residue;
  const other = residueOf(unmix(innerView(next), bare, coat), scatter).value;
  return { ...residue, uncertainty: Math.hypot(residue.uncertainty, DOUBT * Math.abs(other - residue.value)) };
}

/**
 * Reads one patch from all its photographs: residue, colour, melt, tint, outline and streaks, from the darkest of them.
 * shots: calibrated views of this patch; references: of its coupon. Refuses where references are too alike or no
 * photograph is fit; then the residue is null, which never means clean.
 * Errors: InvalidInput without photographs or for views that are too small. Source: own; shared/grading.
 */
export function readPatch(patch: number, shots: readonly PatchShot[], references: CouponReferences): PatchReading {
  const { bare, coat, bareMelt, absolute } = references;
  const { shot, next, spread, finest, out, flag } = chooseShot(patch, shots);
  const refusals: Gate[] = [];
  const different = differenceGate(referenceDifference(bare, coat));
  if (different !== null) refusals.push(different);
  if (shot === null) {
    const unfit = [...new Map(out.map(({ gate, sentence }) => [gate, { gate, sentence }])).values()];
    return { ...unreadPatch(patch, [...refusals, ...unfit]), absolute, referenceMelt: bareMelt };
  }
  const inner = innerView(shot.view);
  const lab = labFromLinear(meanColour(inner));
  const light = ((lab.L + 16) / 3) * shot.lightUncertainty;
  const doubt = spread === null ? 0 : DOUBT * Math.min(DOUBT_UP_TO, spread);
  const gleam = ringGleam(shot.view, coat);
  // ∂L*/∂Y of CIELAB at this lightness
  const veiled = ((116 / 3) * gleam) / ((lab.L + 16) / 116) ** 2;
  const common = {
    patch,
    photo: shot.photo,
    refusals,
    flags: [flag, gleamFlag(patch, gleam)].filter((f) => f !== null),
    lab,
    lightness: { value: lab.L, uncertainty: Math.hypot(light, doubt, veiled, PLACE_SPREAD) },
    absolute,
    referenceMelt: bareMelt,
    photoSpread: spread,
  };
  // Lines show best from nearest, whichever photograph the rest is read from.
  const near = finest === null || finest === shot ? inner : innerView(finest.view);
  // Without a line from bare to coated no pixel can be told to be either.
  if (different !== null) return { ...unreadPatch(patch, refusals), ...common, streaks: streaksIn(near) };
  const u = unmix(inner, bare, coat);
  const close = next !== null && spread! <= DOUBT_UP_TO ? next.view : null;
  const part = barePart(inner, u);
  const melt: Melt | null = part === null ? null : meltOf(part, bareMelt);
  const raggedness: Measured | null = edgeRaggedness(shot.view, unmix(shot.view, bare, coat));
  return {
    ...common,
    residue: residueFrom(inner, close, references),
    melt,
    tint: part === null ? null : tintOf(part, bare, coat),
    raggedness,
    streaks: streaksIn(near, near === inner ? u : unmix(near, bare, coat)),
  };
}

/** A patch that nothing was read from, with the reasons: not settled, which never means clean. */
export const unreadPatch = (patch: number, refusals: readonly Gate[]): PatchReading => ({
  patch,
  photo: null,
  refusals,
  flags: [],
  residue: null,
  lab: null,
  lightness: null,
  absolute: false,
  melt: null,
  referenceMelt: 0,
  tint: null,
  raggedness: null,
  streaks: null,
  photoSpread: null,
});

/** Streaks of a view, or null where it is too small or too blurred to tell any. */
function streaksIn(view: PatchView, u?: Float32Array): Streaks | null {
  if (Math.min(view.width, view.height) < STREAK_PIXELS) return null;
  try {
    return streaksOf(view, u);
  } catch (error) {
    if (error instanceof InvalidInput) return null;
    throw error;
  }
}
