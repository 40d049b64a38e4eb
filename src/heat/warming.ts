import { erf, gaussLegendre } from "#numerics";

/** A patch scanned line by line, for the warming that earlier lines leave behind. SI. */
export interface WarmingCase {
  /** W */
  readonly absorbedPower: number;
  /** m, 1/e² diameter */
  readonly spotDiameter: number;
  /** m/s */
  readonly speed: number;
  /** m */
  readonly lineSpacing: number;
  /** m */
  readonly lineLength: number;
  /** lines of one pass, and passes one after the other without a pause */
  readonly lines: number;
  readonly passes: number;
  /** m, plate with insulated faces, infinite sideways */
  readonly plateThickness: number;
  /** W/(m·K) */
  readonly conductivity: number;
  /** J/(m³·K) */
  readonly volumetricHeat: number;
  /** s between the end of one line and the start of the next */
  readonly turnTime: number;
}

const NODES = gaussLegendre(8);
/** Lines back that are integrated along their length; older ones count as laid down at once. */
const NEAR_LINES = 3;
const SPAN_RATIO = 1.2;

/**
 * Upper estimate of the surface rise just before a line arrives, at the hottest place of a patch: near the end of the
 * last line, where the beam has just turned round, or in the middle, after all earlier lines and passes.
 *
 * Equation: superposition of Gaussian surface sources of age t,
 * P·dt·2/(π(w² + 8Dt))·exp(−2r²/(w² + 8Dt))/(ρc√(πDt))·(1 + 2Σ exp(−m²h²/(Dt))): the last three lines by Gauss-Legendre
 * in ln age, older lines as instantaneous lines (error function along x), earlier passes as instantaneous areas.
 * Units: as in `WarmingCase`; result K. Range: all values above 0 (turnTime may be 0). Errors: none.
 * Source: Carslaw and Jaeger 1959, 10.3; grouping by age, own.
 */
export function warmingBound(c: WarmingCase): number {
  return Math.max(riseAt(c, 0.25 * c.spotDiameter), riseAt(c, 0.5 * c.lineLength));
}

/** Rise at a place x from the start of the line that is about to be written, on that line. */
function riseAt(c: WarmingCase, x: number): number {
  const d = c.conductivity / c.volumetricHeat;
  const w2 = (c.spotDiameter / 2) ** 2;
  const lineTime = c.lineLength / c.speed;
  const period = lineTime + c.turnTime;
  const wait = x / c.speed + c.turnTime; // since the line before ended, when the beam reaches x
  let rise = 0;
  const near = Math.min(NEAR_LINES, c.lines - 1);
  for (let j = 1; j <= near; j++) {
    // Serpentine: line j back ran towards the start when j is odd, away from it when even.
    const ended = wait + (j - 1) * period;
    rise += sweptLine(c, d, w2, x, j * c.lineSpacing, ended, lineTime, j % 2 === 1);
  }
  let j = near + 1;
  while (j < c.lines) {
    const next = Math.min(c.lines, Math.max(j + 1, Math.floor(j * SPAN_RATIO)));
    const middle = (j + next - 1) / 2;
    const age = wait + (middle - 1) * period + lineTime / 2;
    rise += (next - j) * flashedLine(c, d, w2, x, middle * c.lineSpacing, age, c.absorbedPower * lineTime);
    j = next;
  }
  const passTime = c.lines * period;
  for (let pass = 1; pass < c.passes; pass++) {
    const groups = pass < 3 ? 6 : 2;
    for (let g = 0; g < groups; g++) {
      // The line about to be written is the last of its pass; lines further down the patch were written longer ago.
      const back = ((g + 0.5) / groups) * c.lines;
      const age = pass * passTime + back * period;
      rise +=
        (c.lines / groups) *
        flashedLine(
          c,
          d,
          w2,
          x,
          back * c.lineSpacing,
          age,
          c.absorbedPower * lineTime,
          (c.lines / groups) * c.lineSpacing,
        );
    }
  }
  return rise;
}

/** Rise from a line swept at constant speed that ended `ended` s ago, K. */
function sweptLine(
  c: WarmingCase,
  d: number,
  w2: number,
  x: number,
  y: number,
  ended: number,
  lineTime: number,
  towardsStart: boolean,
): number {
  const first = Math.max(ended, 1e-4 * (w2 / d));
  const last = ended + lineTime;
  if (last <= first) return 0;
  // The beam passed x at this age; the integral is split there so that a fast conductor's sharp wake is not missed.
  const passed = ended + (towardsStart ? x : c.lineLength - x) / c.speed;
  const breath = Math.sqrt(w2 + 8 * d * passed) / c.speed;
  const cuts = [first, passed - 1.5 * breath, passed, passed + 1.5 * breath, last]
    .filter((t) => t >= first && t <= last)
    .sort((a, b) => a - b);
  let rise = 0;
  for (let i = 1; i < cuts.length; i++) {
    const a = Math.log(cuts[i - 1]);
    const b = Math.log(cuts[i]);
    if (b - a < 1e-12) continue;
    for (let q = 0; q < NODES.nodes.length; q++) {
      const age = Math.exp(0.5 * (a + b) + 0.5 * (b - a) * NODES.nodes[q]);
      const travelled = c.speed * (age - ended);
      const at = towardsStart ? travelled : c.lineLength - travelled;
      const wide = w2 + 8 * d * age;
      const r2 = (at - x) * (at - x) + y * y;
      rise +=
        0.5 *
        (b - a) *
        NODES.weights[q] *
        age *
        c.absorbedPower *
        (2 / (Math.PI * wide)) *
        Math.exp((-2 * r2) / wide) *
        depthFactor(c, d, age);
    }
  }
  return rise;
}

/** Rise from a line's whole energy (J) laid down `age` s ago, spread over `breadth` m across, K. */
function flashedLine(
  c: WarmingCase,
  d: number,
  w2: number,
  x: number,
  y: number,
  age: number,
  energy: number,
  breadth = 0,
): number {
  const wide = Math.sqrt((w2 + 8 * d * age) / 2);
  const along = (0.5 * (erf((c.lineLength - x) / wide) + erf(x / wide))) / c.lineLength;
  const across =
    breadth > 0
      ? (0.5 * (erf((y + breadth / 2) / wide) - erf((y - breadth / 2) / wide))) / breadth
      : Math.exp(-(y * y) / (wide * wide)) / (wide * Math.sqrt(Math.PI));
  return energy * along * across * depthFactor(c, d, age);
}

/** 1/(ρc√(πDt)) with the images of a plate, K per J/m². */
function depthFactor(c: WarmingCase, d: number, age: number): number {
  return (
    plateImages((c.plateThickness * c.plateThickness) / (d * age)) / (c.volumetricHeat * Math.sqrt(Math.PI * d * age))
  );
}

/**
 * 1 + 2·Σ_{m≥1} exp(−m²·x): how much warmer a surface stays when heat cannot leave through the back of the plate.
 * x = h²/(D·t), 1; result 1. Range: x above 0. Errors: none. Source: Carslaw and Jaeger 1959, method of images;
 * for small x by Poisson's sum, √(π/x)·(1 + 2·exp(−π²/x)).
 */
export function plateImages(x: number): number {
  if (x < 2) return Math.sqrt(Math.PI / x) * (1 + 2 * Math.exp((-Math.PI * Math.PI) / x));
  return 1 + 2 * (Math.exp(-x) + Math.exp(-4 * x) + Math.exp(-9 * x));
}
