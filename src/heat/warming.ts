import { gaussLegendre } from "#numerics";
import { requireInteger, requireNonNegative, requirePositive } from "#units";
import { type LineGroup, linesInPass, linesOfEarlierPasses } from "./warming-groups.ts";

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

/** A case with what every term needs. */
interface Plan extends WarmingCase {
  readonly diffusivity: number;
  /** m², 1/e² radius squared */
  readonly w2: number;
  readonly lineTime: number;
  readonly period: number;
  /** P/(v·ρc·√π), of a line laid down at once */
  readonly perHeat: number;
}

const INVERSE_ROOT_PI = 1 / Math.sqrt(Math.PI);
const NODES = gaussLegendre(8);
/** Lines this many line times back or fewer are integrated along their length; older ones were laid down at once. */
const SWEPT = 3;
/** Covers the ladder of places and the bands, which may both fall short by a few per cent. */
const MARGIN = 1.05;
/** Places tried along a line, in spot radii from where the beam turned round. */
const LADDER = [0, 0.5, 1, 2, 3.5, 7, 15, 40];
/** Places tried, in shares of the line. */
const SHARES = [0.5, 0.8, 0.9, 0.96, 1];

/**
 * Upper estimate of the surface rise just before a line arrives, at the hottest place of a patch: near where the beam
 * has just turned round or along the line, in the last line or amid the last pass. The line's own heat is not in it.
 *
 * Equation: superposition of Gaussian surface sources of age t,
 * P·dt·2/(π(w² + 8Dt))·exp(−2r²/(w² + 8Dt))/(ρc√(πDt))·(1 + 2Σ exp(−m²h²/(Dt))): the last lines by Gauss-Legendre in
 * √age, older ones as lines or bands laid down at once when the beam passed (error functions), times 1.05.
 * Units: as in `WarmingCase`; result K. Range: 0.98 to 1.3 of the exact superposition over a seeded set of serpentine
 * patches (tests/heat/warming.test.ts). Errors: `InvalidInput` for values that are not positive (turnTime, power: below 0).
 * Source: Carslaw and Jaeger 1959, 10.3; grouping by age, own.
 */
export function warmingBound(c: WarmingCase): number {
  const plan = planOf(c);
  const last = c.lines - 1;
  const recent = linesInPass(last);
  const radius = c.spotDiameter / 2;
  const places = LADDER.map((spots) => spots * radius).filter((x) => x < 0.5 * c.lineLength);
  for (const share of SHARES) places.push(share * c.lineLength);
  let hottest = 0;
  let best = 0;
  const old = oldLines(plan, recent);
  const young = recent.filter((group) => !isOld(group));
  for (const x of places) {
    const rise = sum(plan, young, x) + sumOld(plan, old, x);
    if (rise > hottest) {
      hottest = rise;
      best = x;
    }
  }
  if (c.passes === 1) return MARGIN * hottest;
  // The line of the last pass that is hottest where the pass alone is, then other places along that line.
  let groups: LineGroup[] = [];
  hottest = 0;
  for (const line of new Set([last, Math.round(0.75 * last), Math.round(0.5 * last)])) {
    const earlier = [...linesInPass(line), ...linesOfEarlierPasses(line, c.lines, c.passes)];
    const rise = sum(plan, earlier, best);
    if (rise > hottest) {
      hottest = rise;
      groups = earlier;
    }
  }
  for (const share of [0.15, 0.5, 1]) hottest = Math.max(hottest, sum(plan, groups, share * c.lineLength));
  return MARGIN * hottest;
}

function planOf(c: WarmingCase): Plan {
  requireNonNegative("absorbed power", c.absorbedPower, "W");
  requireNonNegative("turn time", c.turnTime, "s");
  requireInteger("lines", c.lines, 1);
  requireInteger("passes", c.passes, 1);
  requirePositive("line spacing", c.lineSpacing, "m");
  requirePositive("plate thickness", c.plateThickness, "m");
  const lineTime = requirePositive("line length", c.lineLength, "m") / requirePositive("speed", c.speed, "m/s");
  const conductivity = requirePositive("conductivity", c.conductivity, "W/(m·K)");
  return {
    ...c,
    diffusivity: conductivity / requirePositive("volumetric heat", c.volumetricHeat, "J/(m³·K)"),
    w2: (requirePositive("spot diameter", c.spotDiameter, "m") / 2) ** 2,
    lineTime,
    period: lineTime + c.turnTime,
    perHeat: (INVERSE_ROOT_PI * c.absorbedPower) / (c.speed * c.volumetricHeat),
  };
}

/** Rise at x from the start of the line that is about to be written, when the beam gets there. */
function sum(plan: Plan, groups: readonly LineGroup[], x: number): number {
  let rise = 0;
  for (const group of groups) {
    if (group.back <= SWEPT && group.breadth === 1) rise += group.count * recentLine(plan, group, x);
    else rise += group.count * flashedLine(plan, group, x);
  }
  return rise;
}

/** Groups whose age hardly changes along the line: their heat is worked out at both ends and runs straight between. */
function isOld(group: LineGroup): boolean {
  return group.back > (group.direction === 0 ? 8 : 16);
}

/** Four doubles for each old group: height at the start and end of the line, 1/width at both. */
function oldLines(plan: Plan, groups: readonly LineGroup[]): Float64Array {
  const old = groups.filter(isOld);
  const table = new Float64Array(4 * old.length);
  for (const [i, group] of old.entries()) {
    for (let end = 0; end < 2; end++) {
      const age = passedAge(plan, group, end * plan.lineLength);
      const per = 1 / Math.sqrt(0.5 * plan.w2 + 4 * plan.diffusivity * age);
      table[4 * i + end] = group.count * flashedHeight(plan, group, age, per);
      table[4 * i + 2 + end] = per;
    }
  }
  return table;
}

function sumOld(plan: Plan, table: Float64Array, x: number): number {
  const share = x / plan.lineLength;
  let rise = 0;
  for (let i = 0; i < table.length; i += 4) {
    const per = table[i + 2]! + share * (table[i + 3]! - table[i + 2]!);
    const height = table[i]! + share * (table[i + 1]! - table[i]!);
    rise += height * (error((plan.lineLength - x) * per) + error(x * per));
  }
  return rise;
}

/** Age of the heat that a line laid down at x when it passed there, s; the mean of both ways for direction 0. */
function passedAge(plan: Plan, group: LineGroup, x: number): number {
  const opposed = (2 * x - plan.lineLength) / plan.speed;
  return group.back * plan.period + (group.direction === 1 ? 0 : group.direction === -1 ? opposed : 0.5 * opposed);
}

/**
 * Rise from a line of late, K. Where its passing took less than a seventh of the time since, it counts as laid down at
 * once, with the spread of ages as a correction of second order: the rise falls as age to the power −m.
 */
function recentLine(plan: Plan, group: LineGroup, x: number): number {
  const passed = passedAge(plan, group, x);
  const wide2 = plan.w2 + 8 * plan.diffusivity * passed;
  const spread2 = wide2 / (4 * plan.speed * plan.speed * passed * passed);
  if (!(passed > 0) || spread2 > 0.02) return sweptLine(plan, group, x);
  const m = 0.5 + (8 * plan.diffusivity * passed) / wide2;
  return flashedLine(plan, group, x) * (1 + 0.5 * m * (m + 1) * spread2);
}

/** Rise from a line swept at constant speed, K. */
function sweptLine(plan: Plan, group: LineGroup, x: number): number {
  const { diffusivity: d, w2, speed } = plan;
  const oldest = group.back * plan.period + x / speed;
  const youngest = oldest - plan.lineTime;
  const passed = passedAge(plan, group, x);
  const y = group.offset * plan.lineSpacing;
  const y2 = y * y;
  const near = Math.min(oldest, Math.max(youngest, passed));
  const breath = Math.sqrt(w2 + 8 * d * near) / (2 * speed);
  const forward = group.direction === 1 ? 1 : -1;
  let low = Math.sqrt(Math.max(0, youngest));
  let rise = 0;
  for (let k = 0; k < 5 && low * low < oldest; k++) {
    // Panels end where the passing begins, at its middle and where it ends; the last two share what is older.
    const stop = k === 3 ? Math.max(4 * near, near + 12 * breath) : k === 4 ? oldest : near + (k - 1) * 3.5 * breath;
    const high = Math.sqrt(Math.min(oldest, stop));
    if (!(high > low)) continue;
    const half = 0.5 * (high - low);
    for (let q = 0; q < 8; q++) {
      const root = low + half * (1 + NODES.nodes[q]!);
      const age = root * root;
      // Where the beam was at that age, from x along the way of the line at hand.
      const dx = forward * speed * (passed - age);
      const wide = w2 + 8 * d * age;
      const exponent = (-2 * (dx * dx + y2)) / wide;
      if (exponent > -30) {
        rise += NODES.weights[q]! * half * 2 * root * (Math.exp(exponent) / wide) * depthFactor(plan, age);
      }
    }
    low = high;
  }
  return (2 / Math.PI) * plan.absorbedPower * rise;
}

/** Rise from one line, spread over the breadth of its group, laid down at once when the beam passed x, K. */
function flashedLine(plan: Plan, group: LineGroup, x: number): number {
  const age = passedAge(plan, group, x);
  const per = 1 / Math.sqrt(0.5 * plan.w2 + 4 * plan.diffusivity * age);
  const height = flashedHeight(plan, group, age, per);
  return height === 0 ? 0 : height * (error((plan.lineLength - x) * per) + error(x * per));
}

/** Half the rise from a line without ends that was laid down at once, K; per: 1/width of its heat, 1/m. */
function flashedHeight(plan: Plan, group: LineGroup, age: number, per: number): number {
  const y = Math.abs(group.offset) * plan.lineSpacing;
  let across: number;
  if (group.breadth > 1) {
    const half = 0.5 * group.breadth * plan.lineSpacing;
    if ((y - half) * per > 5) return 0;
    across = (error((y + half) * per) - error((y - half) * per)) / (4 * half);
  } else {
    const square = (y * per) ** 2;
    if (square > 25) return 0;
    across = Math.exp(-square) * per * INVERSE_ROOT_PI;
  }
  const spread = plan.diffusivity * age;
  const images = plateImages((plan.plateThickness * plan.plateThickness) / spread);
  return (0.5 * plan.perHeat * across * images) / Math.sqrt(spread);
}

/** erf to 3e-7. Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 7.1.28. */
function error(x: number): number {
  const a = Math.abs(x);
  if (a > 3.5) return x > 0 ? 1 : -1;
  const low = 0.0705230784 + a * (0.0422820123 + a * 0.0092705272);
  const p = 1 + a * (low + a * a * a * (0.0001520143 + a * (0.0002765672 + a * 0.0000430638)));
  const p4 = p * p * p * p;
  const value = 1 - 1 / (p4 * p4 * p4 * p4);
  return x > 0 ? value : -value;
}

/** 1/(ρc√(πDt)) with the images of a plate, K per J/m². */
function depthFactor(plan: Plan, age: number): number {
  const spread = plan.diffusivity * age;
  return (
    plateImages((plan.plateThickness * plan.plateThickness) / spread) /
    (plan.volumetricHeat * Math.sqrt(Math.PI * spread))
  );
}

/**
 * 1 + 2·Σ_{m≥1} exp(−m²·x): how much warmer a surface stays when heat cannot leave through the back of the plate.
 * x = h²/(D·t), 1; result 1. Range: x above 0. Errors: none. Source: Carslaw and Jaeger 1959, method of images;
 * for small x by Poisson's sum, √(π/x)·(1 + 2·exp(−π²/x)).
 */
export function plateImages(x: number): number {
  if (x > 35) return 1;
  if (x < 2) return Math.sqrt(Math.PI / x) * (1 + 2 * Math.exp((-Math.PI * Math.PI) / x));
  const e = Math.exp(-x);
  const e4 = e * e * e * e;
  return 1 + 2 * (e + e4 + e4 * e4 * e);
}
