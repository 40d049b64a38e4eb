import {
  type BeamLine,
  type PulseRaster,
  pathHistories,
  pathRise,
  rasterBeforePulse,
  rasterMap,
  sequenceBeforePulse,
} from "#heat";
import { cpu, type Piece, piece } from "./measure.ts";

const plate = { conductivity: 40, volumetricHeat: 3.925e6, plateThickness: 5e-3 };
const lineTime = 301 * 20e-6;
const raster: PulseRaster = {
  energy: 1e-3,
  radius: 125e-6,
  pitch: 50e-6,
  lineSpacing: 0.12e-3,
  pulsesPerLine: 301,
  linesPerPass: 126,
  period: 20e-6,
  lineTime,
  passTime: 126 * lineTime,
  serpentine: true,
};
const COUNT = 100_000;
const SAMPLE = 200;

function train() {
  const [x, y, time] = [new Float64Array(COUNT), new Float64Array(COUNT), new Float64Array(COUNT)];
  for (let i = 0; i < COUNT; i++) {
    const line = Math.floor(i / 301) % 126;
    x[i] = (line % 2 === 1 ? 300 - (i % 301) : i % 301) * raster.pitch;
    y[i] = line * raster.lineSpacing;
    time[i] = i * raster.period;
  }
  return { x, y, time, energy: new Float64Array(COUNT).fill(raster.energy) };
}

/** Height and rate of the Gaussian that a pulse has become so many periods later. */
function lagFactors(): { height: Float64Array; rate: Float64Array } {
  const height = new Float64Array(COUNT + 1);
  const rate = new Float64Array(COUNT + 1);
  const d = plate.conductivity / plate.volumetricHeat;
  for (let lag = 1; lag <= COUNT; lag++) {
    const spread = d * lag * raster.period;
    let images = 1;
    for (let m = 1; m < 9; m++) images += 2 * Math.exp(-(m * m * plate.plateThickness ** 2) / spread);
    const wide = raster.radius ** 2 + 8 * spread;
    height[lag] = ((2 / Math.PI) * raster.energy * images) / wide / plate.volumetricHeat / Math.sqrt(Math.PI * spread);
    rate[lag] = -2 / wide;
  }
  return { height, rate };
}

const SIDE = 256;
const places = Float64Array.from({ length: SIDE }, (_, i) => ((i + 0.5) * 15e-3) / SIDE);

/** All pulses at every (SIDE²/SAMPLE)th place of the map, one period after the last of them, scaled up. */
function directMap({ x, y }: ReturnType<typeof train>): number {
  const { height, rate } = lagFactors();
  const every = (SIDE * SIDE) / 256;
  let sum = 0;
  const spent = cpu(1, 1, () => {
    for (let k = 128; k < SIDE * SIDE; k += every) {
      const [px, py] = [places[k % SIDE]!, places[Math.floor(k / SIDE)]!];
      for (let j = 0; j < COUNT; j++) {
        const exponent = rate[COUNT - j]! * ((px - x[j]!) ** 2 + (py - y[j]!) ** 2);
        if (exponent > -45) sum += height[COUNT - j]! * Math.exp(exponent);
      }
    }
  });
  if (!(sum > 0)) throw new Error("the direct map is empty");
  return spent * every;
}

/** The direct sum with the factors of each lag worked out before, over every (COUNT/SAMPLE)th pulse, scaled up. */
function directSum(pulses: ReturnType<typeof train>): number {
  const { x, y } = pulses;
  const { height, rate } = lagFactors();
  let terms = 0;
  let sum = 0;
  const every = COUNT / SAMPLE;
  const spent = cpu(1, 1, () => {
    terms = 0;
    for (let i = every / 2; i < COUNT; i += every) {
      for (let j = 0; j < i; j++) {
        const exponent = rate[i - j]! * ((x[i]! - x[j]!) ** 2 + (y[i]! - y[j]!) ** 2);
        if (exponent > -45) sum += height[i - j]! * Math.exp(exponent);
      }
      terms += i;
    }
  });
  if (!(sum > 0)) throw new Error("the direct sum is empty");
  return (spent * (0.5 * COUNT * COUNT)) / terms;
}

const against = `direct sum over ${SAMPLE} of ${COUNT} pulses, scaled`;

const beamTime = 15e-3 / 4;
const beamPath: BeamLine[] = Array.from({ length: 130 }, (_, i) => ({
  startTime: i * beamTime,
  endTime: (i + 1) * beamTime,
  fromX: i % 2 === 0 ? 0 : 15e-3,
  toX: i % 2 === 0 ? 15e-3 : 0,
  fromY: i * 0.12e-3,
  toY: i * 0.12e-3,
}));
const probes = {
  x: Float64Array.from({ length: 16 }, (_, i) => (1 + (i % 4) * 4) * 1e-3),
  y: Float64Array.from({ length: 16 }, (_, i) => (1 + Math.floor(i / 4) * 4) * 1e-3),
  depth: 0,
};
const moments = Float64Array.from({ length: 33_800 }, (_, i) => ((i + 1) * 130 * beamTime) / 33_800);

/** Quadrature line by line at each 100th time of one probe, scaled up. */
function directHistories(): number {
  const place = { x: probes.x[5]!, y: probes.y[5]!, z: 0 };
  let sum = 0;
  const spent = cpu(1, 1, () => {
    for (let k = 50; k < moments.length; k += 100) sum += pathRise(plate, 300, 150e-6, beamPath, place, moments[k]!);
  });
  if (!(sum > 0)) throw new Error("the histories are empty");
  return spent * 100 * 16;
}

export const platePieces: readonly Piece[] = [
  piece("raster-before-pulse", "<= 0.15 s", `${against}; within 1e-6 K`, () => ({
    cpu: cpu(1, 7, () => rasterBeforePulse(plate, raster, COUNT)),
    reference: directSum(train()),
  })),
  piece("sequence-before-pulse", "<= 1 s", `${against}; within 0.2 K of 532 K`, () => {
    const pulses = train();
    return {
      cpu: cpu(1, 3, () => sequenceBeforePulse(plate, raster.radius, pulses)),
      reference: directSum(pulses),
    };
  }),
  piece("map-256", "<= 0.03 s", "direct sum at 256 of the 65536 places, scaled; within 0.05 K of 251 K", () => ({
    cpu: cpu(3, 7, () => rasterMap(plate, raster, COUNT, COUNT * raster.period, { x: places, y: places })),
    reference: directMap(train()),
  })),
  piece("probe-histories", "none", "quadrature by lines, 338 of 540800 values, scaled; within 0.1 K of 2500 K", () => ({
    cpu: cpu(1, 3, () => pathHistories(plate, 300, 150e-6, beamPath, probes, moments)),
    reference: directHistories(),
  })),
];
