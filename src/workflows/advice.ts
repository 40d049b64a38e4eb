import type { LaserSetup, MeasurementAdvice, Setting } from "#terms";
import type { PartModel } from "./part-model.ts";
import { patchResults, planOf } from "./predict.ts";
import { softClean, softUndamaged } from "./scores.ts";

/** Shares smaller than this are noise of a few dozen draws. */
const WORTH_NAMING = 0.08;

interface Input {
  readonly measurement: string;
  readonly why: string;
  /** value of the input in each draw */
  readonly values: readonly number[];
}

/**
 * Which measurement would narrow the answer most: the share of the spread of the predicted outcome (clean and
 * undamaged together, soft) that goes with each input that somebody could measure, as the squared rank correlation over
 * the draws, or the between-group share for inputs that are kinds rather than numbers.
 */
export function measurementAdvice(model: PartModel, setup: LaserSetup, setting: Setting): MeasurementAdvice[] {
  const results = patchResults(model, planOf(model, setup, setting));
  const { acceptance } = model.part;
  const clean = results.map((r) => softClean(r, acceptance));
  const undamaged = results.map((r) => softUndamaged(r, acceptance));
  const advice: MeasurementAdvice[] = [];
  if (model.part.mixture.length > 1) {
    const groups = model.draws.map((d) => d.sample.stackIndex);
    advice.push({
      measurement: "cross-section or solvent test of the layers, thickness by gauge (ISO 2808)",
      spreadRemoved: Math.max(betweenGroups(groups, clean), betweenGroups(groups, undamaged)),
      why: "The layers are not fully known; the answer runs over several possible stacks.",
    });
  }
  for (const input of inputsOf(model)) {
    const share = Math.max(rankCorrelation(input.values, clean) ** 2, rankCorrelation(input.values, undamaged) ** 2);
    if (share >= WORTH_NAMING)
      advice.push({ measurement: input.measurement, spreadRemoved: Math.min(share, 1), why: input.why });
  }
  if (model.part.lead === "unknown")
    advice.push({
      measurement: "lead swab or XRF on the coating",
      spreadRemoved: 0,
      why: "It does not change the physics but the whole job: fume, waste and who may do it.",
    });
  if (model.part.chromate === "unknown")
    advice.push({
      measurement: "chromate test or XRF on the primer",
      spreadRemoved: 0,
      why: "It does not change the physics but the whole job: fume, waste and who may do it.",
    });
  return advice.sort((a, b) => b.spreadRemoved - a.spreadRemoved);
}

function inputsOf(model: PartModel): Input[] {
  const { draws } = model;
  const inputs: Input[] = [
    {
      measurement: "thickness of the layers by gauge (ISO 2808)",
      why: "Thicker layers pass less light to the metal and take more passes.",
      values: draws.map((d) => d.strip.thickness),
    },
    {
      measurement: "reflectance of the bare metal at the laser's wavelength",
      why: "It sets how soon the metal melts.",
      values: draws.map((d) => d.sample.metal.absorptance),
    },
    {
      measurement: "burn marks for spot diameter (D² against ln E)",
      why: "Fluence goes with the square of the spot.",
      values: draws.map((d) => d.sample.spotFactor),
    },
  ];
  const bottom = draws.map((d) => d.strip.off[d.strip.off.length - 1]);
  if (bottom.every((l) => l !== undefined)) {
    inputs.push(
      {
        measurement: "a few single-pulse or single-line burns on the coated coupon",
        why: "The temperature at which the layer lets go of the metal is the least known input; only burns show it.",
        values: bottom.map((l) => l.interfaceTemperature),
      },
      {
        measurement: "transmittance of a free film, or the same layer on glass",
        why: "Absorption and scattering decide whether the layer is eaten from above or thrown off from below.",
        values: bottom.map((l) => l.absorption),
      },
      {
        measurement: "pull-off adhesion (ISO 4624)",
        why: "Stronger adhesion holds on to more residue.",
        values: bottom.map((l) => l.adhesionStrength),
      },
    );
  }
  return inputs;
}

/** Spearman's rank correlation; 0 where one of the lists does not vary. */
function rankCorrelation(a: readonly number[], b: readonly number[]): number {
  const x = ranks(a);
  const y = ranks(b);
  const n = a.length;
  const middle = (n - 1) / 2;
  let xy = 0;
  let xx = 0;
  let yy = 0;
  for (let i = 0; i < n; i++) {
    xy += (x[i] - middle) * (y[i] - middle);
    xx += (x[i] - middle) ** 2;
    yy += (y[i] - middle) ** 2;
  }
  return xx > 0 && yy > 0 ? xy / Math.sqrt(xx * yy) : 0;
}

/** Ranks with ties given their mean. */
function ranks(values: readonly number[]): number[] {
  const order = values.map((v, i) => ({ v, i })).sort((p, q) => p.v - q.v);
  const result = new Array<number>(values.length);
  for (let s = 0; s < order.length; ) {
    let e = s;
    while (e + 1 < order.length && order[e + 1].v === order[s].v) e++;
    for (let k = s; k <= e; k++) result[order[k].i] = (s + e) / 2;
    s = e + 1;
  }
  return result;
}

/** Share of the variance of `values` that lies between the groups. */
function betweenGroups(groups: readonly number[], values: readonly number[]): number {
  const mean = values.reduce((s, v) => s + v, 0) / values.length;
  const total = values.reduce((s, v) => s + (v - mean) ** 2, 0);
  if (total === 0) return 0;
  let between = 0;
  for (const g of new Set(groups)) {
    const inside = values.filter((_, i) => groups[i] === g);
    const m = inside.reduce((s, v) => s + v, 0) / inside.length;
    between += inside.length * (m - mean) ** 2;
  }
  return between / total;
}
