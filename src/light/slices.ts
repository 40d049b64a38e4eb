import type { OpticalLayer } from "./light-stack.ts";

/** Collimated light is scattered 4/3·S per metre (S = ¾ of the reduced scattering coefficient), half of it each way. */
const SCATTERED_PER_S = 4 / 3;

/** Scratch arrays of depositLight: one entry per slice, made once and used for any number of solves. */
export interface LightWorkspace {
  readonly capacity: number;
  /** cell that a slice belongs to, −1 for an interface without thickness */
  readonly cell: Int32Array;
  /** diffuse reflectance and transmittance of the slice over black */
  readonly reflect: Float64Array;
  readonly pass: Float64Array;
  /** collimated light thrown back and let through unscattered */
  readonly mirror: Float64Array;
  readonly straight: Float64Array;
  /** collimated light that leaves the slice as diffuse light, back and onward */
  readonly scatterBack: Float64Array;
  readonly scatterOn: Float64Array;
  /** at the upper edge of each slice (one more for the metal): collimated down and up, reflectance and glow from below */
  readonly beamDown: Float64Array;
  readonly beamUp: Float64Array;
  readonly below: Float64Array;
  readonly glow: Float64Array;
}

/** A workspace for up to so many cells and layers. */
export function createLightWorkspace(cells: number, layers: number): LightWorkspace {
  const capacity = cells + 2 * layers + 2;
  const row = (): Float64Array => new Float64Array(capacity);
  return {
    capacity,
    cell: new Int32Array(capacity),
    reflect: row(),
    pass: row(),
    mirror: row(),
    straight: row(),
    scatterBack: row(),
    scatterOn: row(),
    beamDown: row(),
    beamUp: row(),
    below: row(),
    glow: row(),
  };
}

/** An interface that throws back the same share of collimated and of diffuse light. */
export function writeInterface(w: LightWorkspace, i: number, reflectance: number): void {
  w.cell[i] = -1;
  w.reflect[i] = w.mirror[i] = reflectance;
  w.pass[i] = w.straight[i] = 1 - reflectance;
  w.scatterBack[i] = w.scatterOn[i] = 0;
}

/**
 * A slice of thickness h (m) of one layer. Diffuse: the closed form of kubelkaMunk. Collimated → diffuse: with
 * e = K + 4S/3 the particular solution of the two fluxes under a beam e^(−ez) is (−p, −q)·e^(−ez),
 * p = (6K + 10S)/(3K + 8S), q = 2S/(3K + 8S); with nothing diffuse entering, the slice sends back p·R − q(1 − T·E) and
 * onward p(T − E) + q·R·E, E = e^(−eh). (Own derivation; e never meets the diffuse decay γ, as e² − γ² > 0 for S > 0.)
 */
export function writeSlice(w: LightWorkspace, i: number, cell: number, layer: OpticalLayer, h: number): void {
  const K = layer.absorption;
  const S = layer.scattering;
  const decay = Math.sqrt(K * (K + 2 * S));
  // One expm1 serves both e^(−γh) and (1 − e^(−2γh))/γ without losing digits in thin slices.
  const lost = Math.expm1(-decay * h);
  const through = 1 + lost;
  const rest = decay > 0 ? (-lost * (2 + lost)) / decay : 2 * h;
  const divisor = (K + S) * rest + 1 + through * through;
  const R = (S * rest) / divisor;
  const T = (2 * through) / divisor;
  const E = Math.exp(-(K + SCATTERED_PER_S * S) * h);
  w.cell[i] = cell;
  w.reflect[i] = R;
  w.pass[i] = T;
  w.mirror[i] = 0;
  w.straight[i] = E;
  if (S === 0) {
    w.scatterBack[i] = w.scatterOn[i] = 0;
    return;
  }
  const p = (6 * K + 10 * S) / (3 * K + 8 * S);
  const q = (2 * S) / (3 * K + 8 * S);
  w.scatterBack[i] = p * R - q * (1 - T * E);
  w.scatterOn[i] = p * (T - E) + q * R * E;
}
