import { allParticles, type Posterior, shiftNames, shiftShapes } from "#calibration";
import type { Ray } from "#edges";
import { coordinateNames } from "#library";
import { mean, normalQuantile, quantile, standardDeviation, weightedQuantile } from "#numerics";
import type { Belief, LaserSetup, LearntNumber, Setting, Trial } from "#terms";
import { type RayTruth, rayTruth, truthDraws } from "#window";
import { MODEL_VERSION } from "./model-version.ts";
import type { PartModel } from "./part-model.ts";
import { axisValue } from "./two-edges.ts";

/** A property on the scale where the library's prior is standard normal, over the draws that have it. */
interface Column {
  readonly name: string;
  /** draw numbers and their values */
  readonly draws: readonly number[];
  readonly z: readonly number[];
}

/** Shares of posterior particles that each draw holds. */
function drawWeights(posterior: Posterior): Float64Array {
  const weights = new Float64Array(posterior.problem.draws);
  const { draw, count } = allParticles(posterior);
  for (let m = 0; m < count; m++) weights[draw[m]!] = weights[draw[m]!]! + 1 / count;
  return weights;
}

function columnsOf(model: PartModel): Column[] {
  const names = model.part.mixture.map((m) => coordinateNames(m.stack));
  const byName = new Map<string, { draws: number[]; z: number[] }>();
  model.draws.forEach((draw, j) => {
    names[draw.sample.stackIndex]!.forEach((name, k) => {
      if (name === null) return;
      const column = byName.get(name) ?? { draws: [], z: [] };
      byName.set(name, column);
      column.draws.push(j);
      column.z.push(normalQuantile(Math.min(0.999, Math.max(0.001, model.shares[j]![k]!))));
    });
  });
  return [...byName].map(([name, column]) => ({ name, ...column }));
}

const spreadOf = (values: ArrayLike<number>) => ({
  low: quantile(values, 0.05),
  median: quantile(values, 0.5),
  high: quantile(values, 0.95),
});

/**
 * What a trial taught of the properties of the library: each on the scale where its prior is standard normal, before and
 * after. The posterior reweighs the versions of the physics that were drawn; with few of them left it is rough.
 */
export function learntProperties(model: PartModel, posterior: Posterior): LearntNumber[] {
  const weights = drawWeights(posterior);
  return columnsOf(model).flatMap(({ name, draws, z }): LearntNumber[] => {
    const w = draws.map((j) => weights[j]!);
    const total = w.reduce((a, b) => a + b, 0);
    if (total < 0.05 || z.length < 8) return [];
    const at = (p: number) => weightedQuantile(z, w, p);
    return [
      {
        name,
        unit: "",
        prior: spreadOf(z),
        posterior: { low: at(0.05), median: at(0.5), high: at(0.95) },
        spreadLeft: weightedSpread(z, w) / Math.max(1e-9, standardDeviation(z)),
      },
    ];
  });
}

function weightedSpread(z: readonly number[], w: readonly number[]): number {
  const total = w.reduce((a, b) => a + b, 0);
  const middle = z.reduce((s, v, i) => s + v * w[i]!, 0) / total;
  return Math.sqrt(z.reduce((s, v, i) => s + w[i]! * (v - middle) ** 2, 0) / total);
}

/** The shifts of the physics before (standard normal, or as carried) and after; the rest without a law has no names to show. */
export function learntShifts(posterior: Posterior): LearntNumber[] {
  const { phi, count } = allParticles(posterior);
  const { size } = posterior.layout;
  return shiftNames.flatMap((name, k) => {
    if (shiftShapes[k]!.rest) return [];
    const values = Float64Array.from({ length: count }, (_, m) => phi[m * size + k]!);
    const m = posterior.prior.mean[k]!;
    const s = posterior.prior.spread[k]!;
    return {
      name,
      unit: "",
      prior: { low: m - 1.645 * s, median: m, high: m + 1.645 * s },
      posterior: spreadOf(values),
      spreadLeft: standardDeviation(values) / s,
    };
  });
}

/**
 * The numbers that patches can pin down whatever the properties behind them are: both edges along the power of one
 * setting, and the ratio of the second to the first, which is the width of the window. Absorptance and threshold enter
 * only through them.
 */
export function pinnedNumbers(setup: LaserSetup, ray: Ray, before: Posterior, after: Posterior): LearntNumber[] {
  const none = { power: 0, spot: 0, speed: 0, thickness: 0 };
  const edges = (posterior: Posterior) => rayTruth(truthDraws(posterior, 1200), ray, none);
  const full = axisValue(setup, ray.setting) / 1e4;
  const unit = "J/cm²";
  const [first, then] = [edges(before), edges(after)];
  const row = (name: string, of: string, read: (t: RayTruth, s: number) => number): LearntNumber => {
    const values = (t: RayTruth) => t.clean.map((_, s) => read(t, s));
    const logs = [values(first), values(then)];
    const back = (v: Float64Array) => spreadOf(v.map(Math.exp));
    return {
      name,
      unit: of,
      prior: back(logs[0]!),
      posterior: back(logs[1]!),
      spreadLeft: standardDeviation(logs[1]!) / Math.max(1e-9, standardDeviation(logs[0]!)),
    };
  };
  const what = setup.kind === "pulsed" ? "peak fluence" : "dose of one pass";
  return [
    row(`${what} from which the layer is off`, unit, (t, s) => Math.log(full) + t.clean[s]!),
    row(`${what} from which the metal suffers`, unit, (t, s) => Math.log(full) + t.damage[s]!),
    row("damage edge over removal edge", "", (t, s) => t.damage[s]! - t.clean[s]!),
  ];
}

/** What is carried to the next job: no thickness and no machine, which are of this part and this laser alone. */
export function beliefOf(
  model: PartModel,
  setup: LaserSetup,
  trial: Trial,
  posterior: Posterior,
  recommended: { readonly setting: Setting; readonly proven: boolean } | null,
): Belief {
  const weights = drawWeights(posterior);
  const lessons = columnsOf(model).flatMap(({ name, draws, z }) => {
    if (name.endsWith(":thickness") || name.startsWith("machine:")) return [];
    const w = draws.map((j) => weights[j]!);
    const total = w.reduce((a, b) => a + b, 0);
    // A number of a stack that the trial ruled out was not learnt.
    if (total < 0.2) return [];
    const middle = z.reduce((s, v, i) => s + v * w[i]!, 0) / total;
    return [{ coordinate: name, mean: middle, spread: Math.min(1, Math.max(0.05, weightedSpread(z, w))) }];
  });
  const { phi, count } = allParticles(posterior);
  const { size } = posterior.layout;
  const shifts = shiftNames.map((coordinate, k) => {
    const values = Float64Array.from({ length: count }, (_, m) => phi[m * size + k]!);
    return { coordinate, mean: mean(values), spread: Math.min(1, standardDeviation(values)) };
  });
  const { stack } = model;
  return {
    id: `belief-${trial.id}`,
    trialId: trial.id,
    enquiryId: trial.enquiryId,
    partId: trial.partId,
    setupId: setup.id,
    metalId: stack.metal.id,
    layers: stack.layers.map((l) => ({ kindId: l.kind.id, colour: l.colour, thickness: l.thickness.value })),
    lessons,
    shifts,
    ...(model.carried.from.length > 0 ? { builtOn: model.carried.from } : {}),
    recommended,
    patches: posterior.problem.patches.length,
    modelVersion: MODEL_VERSION,
  };
}
