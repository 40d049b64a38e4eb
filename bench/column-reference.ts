/**
 * The heat column in plain style: the same grid, material, light and features as the product's, stepped by explicit
 * Euler at its limit of stability. Flat arrays, nothing made in the loop.
 */
import type { ColumnGrid, ColumnLight, ColumnSpec } from "#heat";

const gasConstant = 8.314462618;

export interface PlainResult {
  readonly metalPeak: number;
  readonly meltDepth: number;
  readonly recession: number;
  readonly steps: number;
}

/** Value of a table at x by straight lines, constant outside. */
function tableAt(xs: Float64Array, ys: Float64Array, x: number): number {
  if (x <= xs[0]) return ys[0];
  const last = xs.length - 1;
  if (x >= xs[last]) return ys[last];
  let i = 0;
  while (x >= xs[i + 1]) i++;
  return ys[i] + ((x - xs[i]) / (xs[i + 1] - xs[i])) * (ys[i + 1] - ys[i]);
}

function askLight(spec: ColumnSpec, grid: ColumnGrid, first: number, conversion: Float64Array, width: Float64Array) {
  return typeof spec.light === "function"
    ? spec.light(grid, { time: 0, firstCell: first, conversion, width })
    : (spec.light as ColumnLight);
}

/** Explicit column. Square or Gaussian pulse, layers with ablation, decomposition and char; metal with melting. */
export function plainColumn(spec: ColumnSpec, grid: ColumnGrid): PlainResult {
  const { layers, metal, pulse } = spec;
  const { count: n, layerCount: m, edges } = grid;
  const width = Float64Array.from({ length: n }, (_, i) => edges[i + 1] - edges[i]);
  const heat = new Float64Array(n);
  const kelvin = new Float64Array(n).fill(spec.startTemperature);
  const conduct = new Float64Array(n);
  const flow = new Float64Array(n + 1);
  const conversion = new Float64Array(m);
  const scale = new Float64Array(n).fill(1);
  // Enthalpy of the metal at the points of its table, latent heat of melting included in the one that melts.
  const nodes = [spec.startTemperature, ...metal.temperature, metal.meltingTemperature, metal.boilingTemperature]
    .filter((t) => t >= spec.startTemperature)
    .sort((a, b) => a - b);
  const hs = [0];
  const ts = [nodes[0]];
  let meltFrom = 0;
  for (let i = 1; i < nodes.length; i++) {
    const c =
      0.5 *
      (tableAt(metal.temperature, metal.heatCapacity, nodes[i - 1]) +
        tableAt(metal.temperature, metal.heatCapacity, nodes[i]));
    hs.push(hs[hs.length - 1] + metal.density * c * (nodes[i] - nodes[i - 1]));
    ts.push(nodes[i]);
    if (nodes[i] === metal.meltingTemperature && meltFrom === 0) {
      meltFrom = hs[hs.length - 1];
      hs.push(meltFrom + metal.density * metal.latentHeatMelting);
      ts.push(nodes[i]);
    }
  }
  const enthalpies = Float64Array.from(hs);
  const temperatures = Float64Array.from(ts);
  const latent = metal.density * metal.latentHeatMelting;
  let limit = Number.POSITIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const layer = i < m ? layers[grid.layerOf[i]] : null;
    const d = layer
      ? layer.conductivity / (layer.density * layer.heatCapacity * (layer.char ? 0.3 : 1))
      : Math.max(...metal.conductivity) / (metal.density * Math.min(...metal.heatCapacity));
    limit = Math.min(limit, (0.4 * width[i] * width[i]) / d);
  }
  let light = askLight(spec, grid, 0, conversion, width);
  let first = 0;
  let [peak, melt, steps, changed, lit] = [0, 0, 0, 0, 0];
  const gaussian = pulse.shape === "gaussian";
  const top = (2 * Math.sqrt(Math.LN2 / Math.PI)) / pulse.duration;
  for (let t = 0; t < spec.endTime; t += limit, steps++) {
    const when = t + limit / 2;
    const power = gaussian
      ? pulse.fluence * top * Math.exp(-4 * Math.LN2 * (when / pulse.duration - 1.5) ** 2)
      : when < pulse.duration
        ? pulse.fluence / pulse.duration
        : 0;
    for (let i = first; i < n; i++) {
      const layer = i < m ? layers[grid.layerOf[i]] : null;
      if (!layer) {
        let s = 0;
        while (s + 2 < enthalpies.length && heat[i] >= enthalpies[s + 1]) s++;
        const span = enthalpies[s + 1] - enthalpies[s];
        kelvin[i] = temperatures[s] + ((temperatures[s + 1] - temperatures[s]) * (heat[i] - enthalpies[s])) / span;
        conduct[i] = tableAt(metal.temperature, metal.conductivity, kelvin[i]);
        continue;
      }
      const c = layer.density * layer.heatCapacity;
      const x = conversion[i];
      kelvin[i] = spec.startTemperature + heat[i] / (c * scale[i]);
      conduct[i] = layer.char
        ? layer.conductivity + x * (layer.char.conductivity - layer.conductivity)
        : layer.conductivity;
      if (layer.ablationTemperature !== null && layer.ablationHeat !== null) {
        const full = layer.density * layer.ablationHeat;
        const from = c * (layer.ablationTemperature - spec.startTemperature);
        if (heat[i] > from) kelvin[i] = layer.ablationTemperature + Math.max(0, heat[i] - from - full) / c;
        if (i === first && heat[i] >= from + full) {
          first++;
          flow[first] = 0;
          light = askLight(spec, grid, first, conversion, width);
        }
      }
      const kinetics = layer.decomposition;
      if (!kinetics || kelvin[i] < 500) continue;
      const rate = kinetics.preExponential * Math.exp(-kinetics.activationEnergy / (gasConstant * kelvin[i]));
      const step = (1 - x) * -Math.expm1(-rate * limit);
      conversion[i] = x + step;
      changed += step * width[i];
      heat[i] -= layer.density * kinetics.heat * step;
      if (!layer.char) continue;
      const before = scale[i];
      scale[i] = 1 - conversion[i] * (1 - (layer.char.fraction * layer.char.heatCapacity) / layer.heatCapacity);
      heat[i] *= scale[i] / before;
    }
    if (spec.lightStep !== undefined && changed - lit > spec.lightStep) {
      lit = changed;
      light = askLight(spec, grid, first, conversion, width);
    }
    for (let i = first + 1; i < n; i++) {
      flow[i] = (kelvin[i - 1] - kelvin[i]) / (width[i - 1] / (2 * conduct[i - 1]) + width[i] / (2 * conduct[i]));
    }
    for (let i = first; i < n; i++) {
      const share = i < m ? light.layerShares[i] : i === m ? light.metalShare : 0;
      heat[i] += (limit * (flow[i] - flow[i + 1] + power * share)) / width[i];
    }
    if (kelvin[m] > peak) peak = kelvin[m];
    let liquid = 0;
    for (let i = m; i < n && heat[i] > meltFrom; i++) liquid += width[i] * Math.min(1, (heat[i] - meltFrom) / latent);
    if (liquid > melt) melt = liquid;
  }
  return { metalPeak: peak, meltDepth: melt, recession: edges[first], steps };
}
