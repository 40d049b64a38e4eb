import { type PlateBody, plateDepthRise } from "#heat";
import { erf, gaussLegendre } from "#numerics";
import { requirePositive } from "#units";

/** A coupon as a plate with straight insulated edges. SI. */
export interface SoakPlate {
  readonly body: PlateBody;
  /** m */
  readonly width: number;
  readonly height: number;
  /** W/(m²·K) that leaves by both faces together */
  readonly loss: number;
}

/** A patch that was burned: heat laid evenly over it from `start` on. m, s, J. */
export interface BurnedPatch {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly start: number;
  readonly duration: number;
  readonly energy: number;
}

const panel = gaussLegendre(10);
/** For burns that lasted less than half of their age: within 2e-5 of the rise (measured). */
const shortPanel = gaussLegendre(3);
/** Panels of age: each spans this ratio; the first of a burn still going on reaches down to 0. */
const RATIO = 5;
const PANELS = 7;

/**
 * Share of heat laid evenly from a to b on a rod of length L with insulated ends that is found per unit share of the
 * stretch at x after it has spread to s = √(4Dt): images of the ends while young,
 * ½Σ_n [erf((b − x + 2nL)/s) − erf((a − x + 2nL)/s)] and the same mirrored, cosine modes when old,
 * (b − a)/L + Σ 2/(mπ)·[sin(mπb/L) − sin(mπa/L)]·cos(mπx/L)·exp(−(mπs/2L)²). All m, 0 ≤ a < b ≤ L; s above 0.
 * Result: 1, 1 deep inside a wide young stretch, (b − a)/L in the end. Throws nothing. Both forms agree to 1e-10.
 * Source: Carslaw & Jaeger, 2nd ed., 3.3 and 10.10.
 */
export function rodShare(x: number, a: number, b: number, length: number, spread: number): number {
  if (spread < 0.5 * length) {
    let sum = 0;
    for (const shift of [-2 * length, 0, 2 * length]) {
      sum += erf((b - x + shift) / spread) - erf((a - x + shift) / spread);
      sum += erf((b + x + shift) / spread) - erf((a + x + shift) / spread);
    }
    return 0.5 * sum;
  }
  let sum = (b - a) / length;
  for (let m = 1; m < 40; m++) {
    const k = (m * Math.PI) / length;
    const decay = Math.exp(-((0.5 * k * spread) ** 2));
    if (decay < 1e-12) break;
    sum += (2 / (m * Math.PI)) * (Math.sin(k * b) - Math.sin(k * a)) * Math.cos(k * x) * decay;
  }
  return sum;
}

/** Places to ask about: every x with every y, m. */
export interface SoakPlaces {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/**
 * Highest surface rise at some places of a coupon at `time` from a patch burned before, K:
 * ∫ q·X(x, a)·Y(y, a)·plate(0, a)·exp(−λa) da over the ages a of its heat, q = E/(duration·area), X and Y `rodShare`,
 * plate(0, a) `plateDepthRise`, λ = loss/(ρc·h). Gauss-Legendre in √age.
 * time: s. Range: constant properties, heat even over the patch (the beam's own spot is hotter), loss small against
 * what conducts through the plate. Throws InvalidInput on sizes that are not positive.
 * Source: Carslaw & Jaeger, 2nd ed., 10.3 and 10.10; lumped loss: Incropera and DeWitt, ch. 5.
 */
export function soakRise(plate: SoakPlate, patch: BurnedPatch, places: SoakPlaces, time: number): number {
  const rises = soakRises(plate, patch, places, time);
  return rises.length === 0 ? 0 : Math.max(...rises);
}

/** The rises themselves, place (i, j) at [j·nx + i]; see `soakRise`. */
export function soakRises(plate: SoakPlate, patch: BurnedPatch, places: SoakPlaces, time: number): Float64Array {
  const out = new Float64Array(places.x.length * places.y.length);
  requirePositive("duration", patch.duration, "s");
  const oldest = time - patch.start;
  if (!(oldest > 0) || patch.energy === 0) return out;
  const { body } = plate;
  const diffusivity = body.conductivity / body.volumetricHeat;
  const decay = plate.loss / (body.volumetricHeat * body.plateThickness);
  const flux = patch.energy / (patch.duration * patch.width * patch.height);
  const youngest = Math.max(0, oldest - patch.duration);
  for (const [low, high] of agePanels(youngest, oldest)) {
    const half = 0.5 * (Math.sqrt(high) - Math.sqrt(low));
    const { nodes, weights } = low > 0.5 * high ? shortPanel : panel;
    for (let q = 0; q < nodes.length; q++) {
      const root = Math.sqrt(low) + half * (1 + nodes[q]!);
      const age = root * root;
      const spread = 2 * Math.sqrt(diffusivity * age);
      const weight = weights[q]! * half * 2 * root;
      const heat = weight * flux * plateDepthRise(body, 0, age) * Math.exp(-decay * age);
      const along = places.x.map((x) => rodShare(x, patch.x, patch.x + patch.width, plate.width, spread));
      places.y.forEach((y, j) => {
        const across = heat * rodShare(y, patch.y, patch.y + patch.height, plate.height, spread);
        for (let i = 0; i < along.length; i++) out[j * along.length + i]! += across * along[i]!;
      });
    }
  }
  return out;
}

function agePanels(youngest: number, oldest: number): [number, number][] {
  const panels: [number, number][] = [];
  let high = oldest;
  for (let k = 0; k < PANELS; k++) {
    const low = Math.max(youngest, k === PANELS - 1 ? 0 : high / RATIO);
    panels.push([low, high]);
    if (low <= youngest) break;
    high = low;
  }
  return panels;
}

/**
 * Mean rise of a whole coupon after a burn, K: E/(ρc·V) falling as exp(−λ·age), λ = loss/(ρc·h), its heat taken as
 * laid down at the middle of the burn. time: s. Throws nothing. Source: lumped heat capacity, Incropera and DeWitt.
 */
export function meanSoakRise(plate: SoakPlate, patch: BurnedPatch, time: number): number {
  const perArea = plate.body.volumetricHeat * plate.body.plateThickness;
  const age = Math.max(0, time - patch.start - 0.5 * patch.duration);
  return (patch.energy / (perArea * plate.width * plate.height)) * Math.exp((-plate.loss / perArea) * age);
}
