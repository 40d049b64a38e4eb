import { erf } from "#numerics";

/**
 * The linear column: constant properties, no phase change, no reaction. One solve gives the temperature rise per unit
 * of incident fluence everywhere in the stack, so every fluence, every starting temperature and every threshold is
 * read from it by scaling. The full column (`solveColumn`) says how far that scaling may be trusted.
 */

export interface LinearLayer {
  /** m */
  readonly thickness: number;
  /** W/(m·K) */
  readonly conductivity: number;
  /** J/(m³·K), density times heat capacity */
  readonly volumetricHeat: number;
}

export interface LinearColumnSpec {
  /** top to bottom; may be empty (bare metal) */
  readonly layers: readonly LinearLayer[];
  /** cell edges of all layers together from the top, m (n + 1 values; boundaries between layers must be edges) */
  readonly edges: Float64Array;
  /** share of the incident fluence absorbed in each layer cell (n values) */
  readonly absorbed: Float64Array;
  /** share of the incident fluence absorbed at the metal's surface */
  readonly metalAbsorbed: number;
  /** W/(m·K), J/(m³·K), m */
  readonly metalConductivity: number;
  readonly metalVolumetricHeat: number;
  readonly metalThickness: number;
  /** s: length of a square pulse, or the 1/e² full width of a Gaussian in time (a Gaussian spot passing by) */
  readonly duration: number;
  readonly shape: "square" | "gaussian";
  /** s, how long to follow the cooling after the pulse's end */
  readonly followFor: number;
}

export interface LinearColumnResult {
  /** peak rise per fluence in each layer cell, K·m²/J */
  readonly peak: Float64Array;
  /** s, time for which each cell's rise exceeds `NEAR_PEAK` of its peak */
  readonly timeNearPeak: Float64Array;
  /** peak rise per fluence of the metal's surface, K·m²/J */
  readonly metalPeak: number;
  /** peak over time of the thickness-averaged rise of the layers above cell `meanCells`, K·m²/J */
  readonly meanPeak: number;
  /** share of the incident energy found as heat at the end, over the share absorbed: 1 for a perfect balance */
  readonly energyRatio: number;
}

/** Share of the peak rise that counts as "near the peak" for reaction times (E/(R·T) of 15-30 gives one e-fold there). */
export const NEAR_PEAK = 0.94;

const METAL_CELLS = 26;
/** TR-BDF2 stage fraction. */
const GAMMA = 2 - Math.SQRT2;

/**
 * Cell edges of one layer, m, refined towards both faces so that the thermal skin next to the metal and at the free
 * surface is resolved. `first` is the width of the outermost cells.
 */
export function layerEdges(thickness: number, first: number, cells: number): Float64Array {
  const half = Math.max(1, Math.floor(cells / 2));
  const edges = new Float64Array(2 * half + 1);
  const ratio = growthRatio(thickness / 2, Math.min(first, thickness / (2 * half)), half);
  let width = 1;
  let at = 0;
  for (let i = 1; i <= half; i++) {
    at += width;
    edges[i] = at;
    width *= ratio;
  }
  const scale = thickness / (2 * at);
  for (let i = 1; i <= half; i++) edges[i] *= scale;
  for (let i = 1; i <= half; i++) edges[half + i] = thickness - edges[half - i];
  return edges;
}

/** Ratio r with first·(1 + r + … + r^(n−1)) = length, found by bisection; 1 when uniform cells are fine enough. */
export function growthRatio(length: number, first: number, n: number): number {
  if (first * n >= length) return 1;
  let low = 1;
  let high = 10;
  for (let i = 0; i < 60; i++) {
    const r = (low + high) / 2;
    const sum = (first * (r ** n - 1)) / (r - 1);
    if (sum < length) low = r;
    else high = r;
  }
  return (low + high) / 2;
}

/**
 * Temperature rise per unit incident fluence in a layered column.
 *
 * Equation: ρc ∂T/∂t = ∂/∂z(k ∂T/∂z) + s(z)·p(t), p normalised to ∫p dt = 1, insulated at the top and at the back of
 * the metal, perfect contact between layers; finite volumes with harmonic face conductances, TR-BDF2 in time (second
 * order, L-stable), steps refined at the start of the pulse and growing geometrically after it.
 * Units: see `LinearColumnSpec`; results in K·m²/J and s.
 * Range: any duration above 0; the column is one-dimensional, so the spot must be wider than the heat spreads.
 * Errors: none thrown; inputs are checked where they enter the house.
 * Source: Carslaw and Jaeger 1959 for the equation; Bank et al., IEEE Trans. CAD 4 (1985) 436 for the time scheme.
 */
export function linearColumn(spec: LinearColumnSpec, meanCells = spec.absorbed.length): LinearColumnResult {
  const n = spec.absorbed.length;
  const { duration, shape } = spec;
  const end = (shape === "square" ? duration : 1.5 * duration) + spec.followFor;
  const diffusivity = spec.metalConductivity / spec.metalVolumetricHeat;
  const reach = Math.min(spec.metalThickness, 5 * Math.sqrt(4 * diffusivity * end));
  const metalFirst = Math.min(0.06 * Math.sqrt(4 * diffusivity * duration), reach / METAL_CELLS);
  const metalRatio = growthRatio(reach, metalFirst, METAL_CELLS);
  const total = n + METAL_CELLS;

  const width = new Float64Array(total);
  const heat = new Float64Array(total); // ρc·Δz, J/(m²·K)
  const resist = new Float64Array(total); // half-cell thermal resistance, m²·K/W
  let layer = 0;
  let layerEnd = spec.layers.length > 0 ? spec.layers[0].thickness : 0;
  for (let i = 0; i < n; i++) {
    const mid = 0.5 * (spec.edges[i] + spec.edges[i + 1]);
    while (mid > layerEnd && layer < spec.layers.length - 1) layerEnd += spec.layers[++layer].thickness;
    width[i] = spec.edges[i + 1] - spec.edges[i];
    heat[i] = spec.layers[layer].volumetricHeat * width[i];
    resist[i] = (0.5 * width[i]) / spec.layers[layer].conductivity;
  }
  let w = metalFirst;
  let metalSum = 0;
  for (let i = n; i < total; i++) {
    width[i] = w;
    metalSum += w;
    w *= metalRatio;
  }
  for (let i = n; i < total; i++) {
    width[i] *= reach / metalSum;
    heat[i] = spec.metalVolumetricHeat * width[i];
    resist[i] = (0.5 * width[i]) / spec.metalConductivity;
  }
  const conduct = new Float64Array(total); // conductance to the next cell, W/(m²·K)
  for (let i = 0; i + 1 < total; i++) conduct[i] = 1 / (resist[i] + resist[i + 1]);

  // The metal's light enters its surface plane: half the flux goes through the half cell, kept as a surface excess.
  const source = new Float64Array(total);
  source.set(spec.absorbed);
  source[n] += spec.metalAbsorbed;

  const temperature = new Float64Array(total);
  const stage = new Float64Array(total);
  const right = new Float64Array(total);
  const factor = new Float64Array(total);
  const peak = new Float64Array(n);
  const timeNear = new Float64Array(n);
  let metalPeak = 0;
  let meanPeak = 0;
  let meanHeat = 0;
  for (let i = 0; i < meanCells; i++) meanHeat += heat[i];

  const steps = stepTimes(duration, shape, end);
  // Peaks need the whole history before "near the peak" is known, so the histories are kept and read once more.
  const history = new Float64Array(n * steps.length);

  for (let s = 1; s < steps.length; s++) {
    const t0 = steps[s - 1];
    const t1 = steps[s];
    const dt = t1 - t0;
    const tMid = t0 + GAMMA * dt;
    const a = shareArrived(tMid, duration, shape) - shareArrived(t0, duration, shape);
    const b = shareArrived(t1, duration, shape) - shareArrived(t0, duration, shape);
    // Stage 1: trapezoid over γ·dt.
    const h1 = 0.5 * GAMMA * dt;
    for (let i = 0; i < total; i++) {
      let flow = 0;
      if (i > 0) flow += conduct[i - 1] * (temperature[i - 1] - temperature[i]);
      if (i + 1 < total) flow += conduct[i] * (temperature[i + 1] - temperature[i]);
      right[i] = heat[i] * temperature[i] + h1 * flow + a * source[i];
    }
    solveConduction(heat, conduct, h1, right, factor, stage);
    // Stage 2: BDF2 over the whole step; its source is what makes the arrived energy exact over the step.
    const h2 = ((1 - GAMMA) / (2 - GAMMA)) * dt;
    const c1 = 1 / (GAMMA * (2 - GAMMA));
    const c0 = ((1 - GAMMA) * (1 - GAMMA)) / (GAMMA * (2 - GAMMA));
    const sourceShare = b - c1 * a;
    for (let i = 0; i < total; i++)
      right[i] = heat[i] * (c1 * stage[i] - c0 * temperature[i]) + sourceShare * source[i];
    solveConduction(heat, conduct, h2, right, factor, temperature);

    const flux = fluxNow(t1, duration, shape) * spec.metalAbsorbed;
    // Surface plane of the metal: the flux released there splits between the two half cells.
    const surface =
      n > 0
        ? (temperature[n - 1] / resist[n - 1] + temperature[n] / resist[n] + flux) / (1 / resist[n - 1] + 1 / resist[n])
        : temperature[n] + flux * resist[n];
    metalPeak = Math.max(metalPeak, surface);
    let mean = 0;
    for (let i = 0; i < n; i++) {
      const value = temperature[i];
      history[s * n + i] = value;
      if (value > peak[i]) peak[i] = value;
      if (i < meanCells) mean += heat[i] * value;
    }
    if (meanHeat > 0) meanPeak = Math.max(meanPeak, mean / meanHeat);
  }

  for (let s = 1; s < steps.length; s++) {
    const dt = steps[s] - steps[s - 1];
    for (let i = 0; i < n; i++) if (history[s * n + i] >= NEAR_PEAK * peak[i]) timeNear[i] += dt;
  }
  let stored = 0;
  let absorbed = spec.metalAbsorbed;
  for (let i = 0; i < total; i++) stored += heat[i] * temperature[i];
  for (let i = 0; i < n; i++) absorbed += spec.absorbed[i];
  return { peak, timeNearPeak: timeNear, metalPeak, meanPeak, energyRatio: absorbed > 0 ? stored / absorbed : 1 };
}

/** (C + h·K)·T = right for the tridiagonal conduction matrix K; Thomas algorithm, result in `out`. */
function solveConduction(
  heat: Float64Array,
  conduct: Float64Array,
  h: number,
  right: Float64Array,
  factor: Float64Array,
  out: Float64Array,
): void {
  const n = heat.length;
  let off = h * conduct[0];
  let pivot = heat[0] + off;
  factor[0] = off / pivot;
  out[0] = right[0] / pivot;
  for (let i = 1; i < n; i++) {
    const below = off;
    off = i + 1 < n ? h * conduct[i] : 0;
    pivot = heat[i] + below + off - below * factor[i - 1];
    factor[i] = off / pivot;
    out[i] = (right[i] + below * out[i - 1]) / pivot;
  }
  for (let i = n - 2; i >= 0; i--) out[i] += factor[i] * out[i + 1];
}

/** Share of the pulse's energy that has arrived by time t. The Gaussian starts 0.75 durations before its middle. */
function shareArrived(t: number, duration: number, shape: "square" | "gaussian"): number {
  if (shape === "square") return Math.min(1, Math.max(0, t / duration));
  // exp(−8 (t−c)²/duration²): 0.5·(1 + erf(√8·(t − c)/duration)), cut at ±0.75 durations (0.0027 of the energy).
  const x = (Math.sqrt(8) * (t - 0.75 * duration)) / duration;
  const edge = erf(Math.sqrt(8) * 0.75);
  return Math.min(1, Math.max(0, 0.5 * (1 + erf(x) / edge)));
}

function fluxNow(t: number, duration: number, shape: "square" | "gaussian"): number {
  if (shape === "square") return t <= duration * (1 + 1e-12) ? 1 / duration : 0;
  const x = (t - 0.75 * duration) / duration;
  if (Math.abs(x) > 0.75) return 0;
  return (Math.sqrt(8 / Math.PI) / duration) * Math.exp(-8 * x * x);
}

/** Times of the steps: quadratic crowding at the start of a square pulse, even through a Gaussian, geometric after. */
function stepTimes(duration: number, shape: "square" | "gaussian", end: number): Float64Array {
  const times: number[] = [0];
  const inside = shape === "square" ? 16 : 30;
  const pulseEnd = shape === "square" ? duration : 1.5 * duration;
  for (let i = 1; i <= inside; i++)
    times.push(shape === "square" ? pulseEnd * (i / inside) ** 2 : (pulseEnd * i) / inside);
  let dt = pulseEnd / (shape === "square" ? 24 : 30);
  let t = pulseEnd;
  while (t < end * (1 - 1e-9)) {
    t = Math.min(end, t + dt);
    times.push(t);
    dt *= 1.35;
  }
  return Float64Array.from(times);
}
