// How the cost of the main pieces grows with cells, time, pulses and draws, each over a factor of 64.
// Usage: npm run -s bench -- growth. Prints the table and writes docs/cost-growth.md.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { defaultSetting } from "#beam";
import { rasterBeforePulse, sequenceBeforePulse, solveColumn } from "#heat";
import { logarithmicProfile, residueMap } from "#patch";
import { axisOver, createPartModel, mapFlow, patchResults, planOf, workFlow } from "#workflows";
import { exampleModelParts, root, SEED } from "./example.ts";
import { cpu } from "./measure.ts";

/** Four sizes, four times as large each: a factor of 64 from the first to the last. */
const SCALES = [1, 4, 16, 64] as const;

interface Growth {
  readonly what: string;
  readonly unit: string;
  /** size at scale 1 */
  readonly least: number;
  /** makes the work of one size ready; only what it returns is timed */
  prepare(size: number): () => unknown;
}

const { library, enquiry, part, sample } = exampleModelParts();
const setup = library.setup("pulsed-500");
const setting = defaultSetting(setup);

function column(cells: number, endTime: number) {
  const inLayers = Math.max(2, Math.floor(cells / 4));
  return () =>
    solveColumn({
      layers: sample.layers.map((l) => ({ ...l, decomposition: null })),
      metal: sample.metal,
      light: (grid) => ({
        layerShares: new Float64Array(grid.layerCount).fill(0.3 / grid.layerCount),
        metalShare: 0.2,
      }),
      pulse: { fluence: 4e4, duration: 100e-9, shape: "square" },
      startTemperature: 293.15,
      endTime,
      grid: { layerCells: inLayers, metalCells: cells - 2 * inLayers },
    });
}

const body = { conductivity: 40, volumetricHeat: 3.925e6, plateThickness: 5e-3 };
const PITCH = 50e-6;
const PERIOD = 20e-6;
const PER_LINE = 300;

/** A raster of 300 pulses a line, as many lines as the pulses fill. */
function rasterOf(count: number) {
  const lines = Math.ceil(count / PER_LINE);
  const lineTime = PER_LINE * PERIOD;
  return {
    energy: 1e-3,
    radius: 125e-6,
    pitch: PITCH,
    lineSpacing: 0.12e-3,
    pulsesPerLine: PER_LINE,
    linesPerPass: lines,
    period: PERIOD,
    lineTime,
    passTime: lines * lineTime,
    serpentine: true,
  };
}

function trainOf(count: number) {
  const places = Array.from({ length: count }, (_, i) => ({ line: Math.floor(i / PER_LINE), at: i % PER_LINE }));
  return {
    x: Float64Array.from(places, (p) => (p.line % 2 === 1 ? PER_LINE - 1 - p.at : p.at) * PITCH),
    y: Float64Array.from(places, (p) => p.line * 0.12e-3),
    time: Float64Array.from(places, (_, i) => i * PERIOD),
    energy: new Float64Array(count).fill(1e-3),
  };
}

const profile = logarithmicProfile(4e-6, 3.6e4, 1e4, 100e-6);

/** Residue of a raster over a square of so many cells a side; a pitch that never meets the cells again. */
function residue(side: number, pulses: number) {
  const perLine = Math.round(Math.sqrt(pulses));
  const step = 14e-3 / side;
  const pitch = (13.9e-3 / perLine) * 0.999;
  const grid = { columns: side, rows: side, step, x0: step / 2, y0: step / 2 };
  const raster = { pitch, spacing: pitch * 1.0007, pulsesPerLine: perLine, lines: perLine, x0: 40e-6, y0: 40e-6 };
  const into = new Float32Array(side * side);
  return () => residueMap(grid, 40e-6, profile, raster, { into });
}

const growths: readonly Growth[] = [
  { what: "one pulse in the column", unit: "cells", least: 25, prepare: (n) => column(n, 300e-9) },
  {
    what: "one pulse in the column, cells held",
    unit: "ns of end time",
    least: 150,
    prepare: (n) => column(100, n * 1e-9),
  },
  {
    what: "temperature before each pulse, regular raster",
    unit: "pulses",
    least: 1500,
    prepare: (n) => () => rasterBeforePulse(body, rasterOf(n), n),
  },
  {
    what: "temperature before each pulse, any sequence",
    unit: "pulses",
    least: 1500,
    prepare: (n) => {
      const train = trainOf(n);
      return () => sequenceBeforePulse(body, 125e-6, train);
    },
  },
  {
    what: "residue map, 100,000 pulses",
    unit: "cells",
    least: 175 ** 2,
    prepare: (n) => residue(Math.round(Math.sqrt(n)), 1e5),
  },
  { what: "residue map, 1400² cells", unit: "pulses", least: 1600, prepare: (n) => residue(1400, n) },
  {
    what: "one setting, kernels warm",
    unit: "draws",
    least: 8,
    prepare: (n) => {
      const model = createPartModel(part, { seed: SEED, drawCount: n });
      const plan = planOf(model, setup, setting);
      return () => patchResults(model, plan);
    },
  },
  {
    what: "map of chances, 8 draws, model included, check left out",
    unit: "settings",
    least: 13 ** 2,
    prepare: (n) => {
      const side = Math.round(Math.sqrt(n));
      const spec = {
        setting,
        x: axisOver(setup, setting, "frequency", side),
        y: axisOver(setup, setting, "speed", side),
      };
      const work = { parts: enquiry.parts, seed: SEED, drawCount: 8 };
      return () => workFlow(mapFlow(spec, { part: 0, setup, seed: SEED, drawCount: 8, checked: 0 }), work);
    },
  },
];

/** Least-squares slope of ln cost over ln size: 1 is proportional, 0 independent. */
function power(sizes: readonly number[], costs: readonly number[]): number {
  const x = sizes.map(Math.log);
  const y = costs.map((c) => Math.log(Math.max(c, 1e-7)));
  const mx = x.reduce((a, b) => a + b, 0) / x.length;
  const my = y.reduce((a, b) => a + b, 0) / y.length;
  const xy = x.reduce((sum, v, i) => sum + (v - mx) * (y[i]! - my), 0);
  return xy / x.reduce((sum, v) => sum + (v - mx) ** 2, 0);
}

/** Costs small enough are measured over more calls. */
function costOf(work: () => unknown): number {
  // A few rounds first, so that the compiler of the host is done with it.
  for (let i = 0; i < 3; i++) work();
  const once = cpu(1, 1, work);
  return once > 0.3 ? once : cpu(Math.max(1, Math.ceil(0.05 / Math.max(once, 1e-5))), 3, work);
}

/** Measures every piece and writes the table. */
export function measureGrowth(): void {
  const seconds = (s: number) => (s < 0.01 ? `${(s * 1e3).toPrecision(2)} ms` : `${s.toPrecision(2)} s`);
  const rows = growths.map(({ what, unit, least, prepare }) => {
    const sizes = SCALES.map((scale) => scale * least);
    const costs = sizes.map((size) => costOf(prepare(size)));
    const row = `| ${what} | ${sizes[0]} to ${sizes.at(-1)} ${unit} | ${costs.map(seconds).join(" | ")} | ${power(sizes, costs).toFixed(2)} |`;
    console.log(row);
    return row;
  });
  const text = `# How cost grows

CPU on one core for sizes 1, 4, 16 and 64 times the smallest, and the power of the size that the cost grows with (slope
of a straight line through the four in logarithms: 1 is proportional, 0 independent). Written by \`npm run -s bench --
growth\`; times are of the machine that it ran on, the powers are what to rely on.

| work | sizes | × 1 | × 4 | × 16 | × 64 | power |
|---|---|---|---|---|---|---|
${rows.join("\n")}
`;
  writeFileSync(join(root, "docs/cost-growth.md"), text);
}
