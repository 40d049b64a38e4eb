import { invalid } from "#units";
import type { Gate } from "../gate.ts";
import { lightnessOfLuminance, luminanceWeights } from "../colour-space.ts";
import { clippedGate, readingLimits, shadowGate, spreadFlag } from "./reading-gates.ts";
import { innerView, type PatchView } from "./view.ts";

/** One patch as one photograph shows it. */
export interface PatchShot {
  /** name of the photograph */
  readonly photo: string;
  /** in reflectance, by that photograph's own greys and layer */
  readonly view: PatchView;
  /** share of its pixels that are clipped in any channel */
  readonly clippedShare: number;
  /** ln light of the layer around it against the layer elsewhere; null when unknown */
  readonly ringResidual: number | null;
  /** ln light, standard uncertainty of the calibration here */
  readonly lightUncertainty: number;
}

/** Which photograph a patch is read from. */
export interface ShotChoice {
  /** null when every photograph is out */
  readonly shot: PatchShot | null;
  /** the darkest but one, which says how far the choice matters; null without */
  readonly next: PatchShot | null;
  /** L* between the two; null without */
  readonly spread: number | null;
  /** of those as dark as it to 2 L*, itself among them, the one that shows the most pixels per mm; null without any */
  readonly finest: PatchShot | null;
  /** why photographs were left out */
  readonly out: readonly (Gate & { readonly photo: string })[];
  readonly flag: Gate | null;
}

/** Mean luminance of a calibrated view, less margin and rim. Errors: InvalidInput for a view that is too small. */
export function meanLuminance(view: PatchView): number {
  const { rgb } = innerView(view);
  const [r, g, b] = luminanceWeights("srgb");
  let sum = 0;
  for (let i = 0; i < rgb.length; i += 3) sum += r * rgb[i]! + g * rgb[i + 1]! + b * rgb[i + 2]!;
  return (3 * sum) / rgb.length;
}

/**
 * The photograph that a patch is read from: the darkest in calibrated luminance, since glare only adds light. Photographs
 * in which a shadow lies on the patch or which are clipped there are left out first. Never the one with least residue: on
 * a dark coat that would pick the glare.
 * shots: one patch, at least one photograph. Errors: InvalidInput without any, or for views too small. Source:
 * shared/grading (95th percentile of L* errors 9.9 → 2.1).
 */
export function chooseShot(patch: number, shots: readonly PatchShot[]): ShotChoice {
  if (shots.length === 0) invalid(`photographs of patch ${patch}`, 0, "", "at least one is needed");
  const out: (Gate & { photo: string })[] = [];
  const usable = shots.filter(({ photo, clippedShare, ringResidual }) => {
    const gate = clippedGate(patch, clippedShare) ?? shadowGate(patch, ringResidual);
    if (gate !== null) out.push({ ...gate, photo });
    return gate === null;
  });
  const ordered = usable
    .map((shot) => ({ shot, luminance: meanLuminance(shot.view) }))
    .sort((a, b) => a.luminance - b.luminance);
  const [first, second] = ordered;
  if (first === undefined) return { shot: null, next: null, spread: null, finest: null, out, flag: null };
  const spread =
    second === undefined ? null : lightnessOfLuminance(second.luminance) - lightnessOfLuminance(first.luminance);
  const darkest = lightnessOfLuminance(first.luminance);
  const finest = ordered
    .filter(({ luminance }) => lightnessOfLuminance(luminance) - darkest <= readingLimits.spread)
    .reduce((best, one) => (one.shot.view.pixelsPerMm > best.shot.view.pixelsPerMm ? one : best)).shot;
  return { shot: first.shot, next: second?.shot ?? null, spread, finest, out, flag: spreadFlag(patch, spread) };
}
