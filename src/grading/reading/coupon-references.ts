import { invalid } from "#units";
import { chooseShot, type PatchShot } from "./choose-shot.ts";
import type { LightCalibration } from "./light-calibration.ts";
import { type CouponReferences, meltIndexOf } from "./read-patch.ts";
import { type Reference, referenceOf, referenceOfColour } from "./reference.ts";
import type { PatchView } from "./view.ts";

/** What a coupon's references are taken from. */
export interface ReferenceShots {
  /** shots of each patch that was cleaned as a reference */
  readonly bare: readonly (readonly PatchShot[])[];
  /** shots of each untouched patch; the layer between the patches stands in where there is none */
  readonly coat: readonly (readonly PatchShot[])[];
  /** light of each photograph */
  readonly lights: readonly LightCalibration[];
}

/** The view of the first patch of which a photograph is fit; null when none is. */
function firstFit(patches: readonly (readonly PatchShot[])[]): PatchView | null {
  for (const shots of patches) {
    const view = shots.length === 0 ? null : (chooseShot(0, shots).shot?.view ?? null);
    if (view !== null) return view;
  }
  return null;
}

/** The layer of the photograph that shows it darkest: glare only adds light. */
function layerBetween(lights: readonly LightCalibration[]): Reference | null {
  const found = lights.flatMap(({ layer }) => (layer === null ? [] : [referenceOfColour(layer)]));
  return found.length === 0 ? null : found.reduce((dark, one) => (one.lab.L < dark.lab.L ? one : dark));
}

/**
 * Bare and coated reference of a coupon, each from the darkest photograph that is fit, as its patches are read.
 * L* counts as absolute only where the greys of every photograph were measured.
 * Errors: InvalidInput where no photograph shows a cleaned reference, or neither an untouched patch nor the layer.
 */
export function couponReferences({ bare, coat, lights }: ReferenceShots): CouponReferences {
  const bareView = firstFit(bare);
  if (bareView === null)
    invalid("bare reference", "missing", "", "one cleaned reference patch must show without shadow");
  const coatView = firstFit(coat);
  const coated = coatView === null ? layerBetween(lights) : referenceOf(coatView);
  if (coated === null) invalid("coated reference", "missing", "", "an untouched patch or the layer must show");
  const references = { bare: referenceOf(bareView), coat: coated };
  return {
    ...references,
    bareMelt: meltIndexOf(bareView, references),
    absolute: lights.length > 0 && lights.every(({ absolute }) => absolute),
  };
}
