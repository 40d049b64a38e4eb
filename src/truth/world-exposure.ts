import { beamState } from "#beam";
import type { LaserSetup, Setting } from "#terms";
import type { WorldLaws } from "./world-laws.ts";

/** What a setting brings to sample points of one repeating cell of its raster, natural logarithms. */
export interface Exposure {
  /** ln of the strongest event at each point, J/m², and of the sum of all events of one pass */
  readonly strongest: Float64Array;
  readonly sum: Float64Array;
  /** ln of the strongest event anywhere */
  readonly peak: number;
  /** ln s of one event, ln events per point and pass, ln spot diameter in m, ln mean power in W, passes */
  readonly time: number;
  readonly count: number;
  readonly spot: number;
  readonly power: number;
  readonly passes: number;
}

const FAR = 1.7;
const COLUMNS = 4;
const ROWS = 8;

/** Share of the peak at a distance, in 1/e² radii: a super-Gaussian with a ring on its wings. */
function profile(laws: WorldLaws, rho: number): number {
  const ring = Math.exp(-(((rho - 1.1) / 0.3) ** 2));
  return (1 - laws.ring) * Math.exp(-2 * rho ** laws.spotOrder) + laws.ring * ring;
}

/** Tables of one world: the profile over its own area, and the same summed along a line. */
export interface SpotTables {
  /** peak share times w² over the pulse energy */
  readonly perEnergy: number;
  /** line dose at a distance y/w, times w over power per speed */
  readonly line: Float64Array;
}

const LINE_STEPS = 64;

export function spotTables(laws: WorldLaws): SpotTables {
  const h = 0.01;
  let area = 0;
  for (let rho = h / 2; rho < FAR; rho += h) area += 2 * Math.PI * rho * h * profile(laws, rho);
  const line = Float64Array.from({ length: LINE_STEPS + 1 }, (_, i) => {
    const y = (FAR * i) / LINE_STEPS;
    let sum = 0;
    for (let x = h / 2; x * x + y * y < FAR * FAR; x += h) sum += 2 * h * profile(laws, Math.hypot(x, y));
    return sum / area;
  });
  return { perEnergy: 1 / area, line };
}

function lineShare(tables: SpotTables, y: number): number {
  const at = (Math.abs(y) / FAR) * LINE_STEPS;
  if (at >= LINE_STEPS) return 0;
  const i = Math.floor(at);
  return tables.line[i]! + (at - i) * (tables.line[i + 1]! - tables.line[i]!);
}

/** Exposure of a setting, drift left out: drift shifts the logarithms. */
export function exposureOf(laws: WorldLaws, tables: SpotTables, setup: LaserSetup, setting: Setting): Exposure {
  const beam = beamState(setup, setting);
  const radius = beam.spotDiameter / 2;
  const spacing = setting.lineSpacing / radius;
  const train = beam.onTime !== null && setting.frequency !== null && beam.onTime * setting.speed < radius;
  const lines = Math.ceil(FAR / spacing) + 1;
  const strongest: number[] = [];
  const sums: number[] = [];
  let peak = 0;
  const time = train ? (beam.onTime as number) : beam.spotDiameter / setting.speed;
  let count: number;
  if (train) {
    const energy = beam.pulseEnergy ?? beam.meanPower / (setting.frequency as number);
    const top = (energy * tables.perEnergy) / (radius * radius);
    const pitch = setting.speed / (setting.frequency as number) / radius;
    // Pulses closer than a sixth of the radius are taken together.
    const together = Math.max(1, Math.floor(1 / (6 * pitch)));
    const step = pitch * together;
    count = (Math.PI * radius * radius) / (pitch * radius * setting.lineSpacing);
    for (let r = 0; r < ROWS; r++) {
      for (let c = 0; c < COLUMNS; c++) {
        const y = ((r + 0.5) / ROWS) * spacing;
        const x = ((c + 0.5) / COLUMNS) * step;
        let most = 1e-9;
        let sum = 1e-9;
        for (let l = -lines; l <= lines; l++) {
          const dy = l * spacing - y;
          if (Math.abs(dy) >= FAR) continue;
          const phase = l % 2 === 0 ? 0 : laws.stagger;
          const half = Math.sqrt(FAR * FAR - dy * dy);
          const first = Math.ceil((x - half) / step - phase);
          const last = Math.floor((x + half) / step - phase);
          for (let i = first; i <= last; i++) {
            const share = profile(laws, Math.hypot((i + phase) * step - x, dy));
            if (share > most) most = share;
            sum += share * together;
          }
        }
        strongest.push(Math.log(top * most));
        sums.push(Math.log(top * sum));
      }
    }
    peak = top;
  } else {
    const top = beam.meanPower / setting.speed / radius;
    count = (2 * radius) / setting.lineSpacing;
    for (let r = 0; r < 2 * ROWS; r++) {
      const y = ((r + 0.5) / (2 * ROWS)) * spacing;
      let most = 1e-9;
      let sum = 1e-9;
      for (let l = -lines; l <= lines; l++) {
        const share = lineShare(tables, l * spacing - y);
        if (share > most) most = share;
        sum += share;
      }
      strongest.push(Math.log(top * most));
      sums.push(Math.log(top * sum));
    }
    peak = top * Math.max(...tables.line);
  }
  return {
    strongest: Float64Array.from(strongest),
    sum: Float64Array.from(sums),
    peak: Math.log(peak),
    time: Math.log(time),
    count: Math.log(Math.max(0.1, count)),
    spot: Math.log(beam.spotDiameter),
    power: Math.log(beam.meanPower),
    passes: setting.passes,
  };
}
