import { gaussLegendre } from "#numerics";
import { requireFinite, requireInRange, requireNonNegative, requirePositive } from "#units";

/** A plate with insulated faces and constant properties, infinite sideways. SI. */
export interface PlateBody {
  /** W/(m·K) */
  readonly conductivity: number;
  /** J/(m³·K) */
  readonly volumetricHeat: number;
  /** m */
  readonly plateThickness: number;
}

/** A straight line that a beam runs along at constant speed. m and s. */
export interface BeamLine {
  readonly startTime: number;
  readonly endTime: number;
  readonly fromX: number;
  readonly fromY: number;
  readonly toX: number;
  readonly toY: number;
}

/** m; z from the lit face down */
export interface PlatePlace {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

const panel = gaussLegendre(16);
const perPulse = 2 / Math.PI;

/**
 * Rise at depth z after a plane of heat of 1 J/m² was laid on the lit face: images of the faces while young,
 * Σ_n exp(−(z − 2nh)²/(4Dt))/(ρc·√(πDt)), cosine modes when old, (1 + 2·Σ cos(nπz/h)·exp(−n²π²Dt/h²))/(ρc·h).
 * depth z: m, 0 to the thickness h; age t: s, > 0. Result: K·m²/J, both forms exact to 1e-15.
 * Source: Carslaw & Jaeger, 2nd ed., 10.3 and 3.3.
 */
export function plateDepthRise(body: PlateBody, depth: number, age: number): number {
  const { conductivity, volumetricHeat, plateThickness: h } = body;
  const spread = (conductivity / volumetricHeat) * age;
  let sum = 0;
  if (spread < 0.15 * h * h) {
    for (let n = -3; n <= 3; n++) sum += Math.exp(-((depth - 2 * n * h) ** 2) / (4 * spread));
    return sum / (volumetricHeat * Math.sqrt(Math.PI * spread));
  }
  const decay = (Math.PI * Math.PI * spread) / (h * h);
  for (let n = 1; n * n * decay < 40; n++) sum += Math.cos((n * Math.PI * depth) / h) * Math.exp(-n * n * decay);
  return (1 + 2 * sum) / (volumetricHeat * h);
}

function requireBody(body: PlateBody, radius: number): void {
  requirePositive("conductivity", body.conductivity, "W/(m·K)");
  requirePositive("volumetric heat", body.volumetricHeat, "J/(m³·K)");
  requirePositive("plate thickness", body.plateThickness, "m");
  requirePositive("radius", radius, "m");
}

/** Ages between which the integrand is smooth enough for one panel: the passing of the beam is cut finely. */
function cutAges(youngest: number, oldest: number, passing: number, breath: number): number[] {
  const cuts = [youngest, oldest];
  for (const k of [-8, -4, -2, -1, 0, 1, 2, 4, 8]) {
    const t = passing + k * breath;
    if (t > youngest && t < oldest) cuts.push(t);
  }
  // Far from the passing the integrand still falls over decades of age.
  for (let t = oldest / 4; t > youngest && t > oldest * 1e-9; t /= 4) cuts.push(t);
  return cuts.sort((a, b) => a - b);
}

/** Rise from one line, by Gauss-Legendre panels in √age. */
function lineRise(
  body: PlateBody,
  power: number,
  radius: number,
  line: BeamLine,
  place: PlatePlace,
  time: number,
): number {
  const youngest = Math.max(0, time - line.endTime);
  const oldest = time - line.startTime;
  if (oldest <= youngest) return 0;
  const duration = line.endTime - line.startTime;
  const vx = (line.toX - line.fromX) / duration;
  const vy = (line.toY - line.fromY) / duration;
  const v2 = vx * vx + vy * vy;
  const d = body.conductivity / body.volumetricHeat;
  const w2 = radius * radius;
  const run = v2 > 0 ? ((place.x - line.fromX) * vx + (place.y - line.fromY) * vy) / v2 : 0;
  const passing = oldest - run;
  const near = Math.min(oldest, Math.max(youngest, passing));
  const breath = v2 > 0 ? Math.sqrt((w2 + 8 * d * near) / v2) / 2 : duration;
  const cuts = cutAges(youngest, oldest, near, breath);
  let sum = 0;
  for (let i = 1; i < cuts.length; i++) {
    const low = Math.sqrt(cuts[i - 1]!);
    const half = 0.5 * (Math.sqrt(cuts[i]!) - low);
    for (let q = 0; q < 16; q++) {
      const root = low + half * (1 + panel.nodes[q]!);
      const age = root * root;
      const since = oldest - age;
      const dx = place.x - line.fromX - vx * since;
      const dy = place.y - line.fromY - vy * since;
      const wide = w2 + 8 * d * age;
      const exponent = (-2 * (dx * dx + dy * dy)) / wide;
      if (exponent < -45) continue;
      sum += panel.weights[q]! * half * 2 * root * (Math.exp(exponent) / wide) * plateDepthRise(body, place.z, age);
    }
  }
  return perPulse * power * sum;
}

/**
 * Rise in a plate under a Gaussian beam that runs along straight lines, at one place and time:
 * ΔT = ∫ P·2/(π(w² + 8Dt))·exp(−2r²/(w² + 8Dt))·plate(z, t) dt over the ages t of all heat laid down before `time`.
 * absorbedPower P: W; radius w: m, 1/e²; time: s. Result: K. Exact for constant properties, laterally infinite plate,
 * to about 1e-7 of the result (measured); slow: for checks and single places. Throws `InvalidInput`.
 * Source: Cline & Anthony, J. Appl. Phys. 48 (1977) 3895; Carslaw & Jaeger, 2nd ed., 10.3.
 */
export function pathRise(
  body: PlateBody,
  absorbedPower: number,
  radius: number,
  path: readonly BeamLine[],
  place: PlatePlace,
  time: number,
): number {
  requireBody(body, radius);
  requireNonNegative("absorbed power", absorbedPower, "W");
  requireInRange("depth", place.z, "m", 0, body.plateThickness);
  requireFinite("time", time, "s");
  let rise = 0;
  for (const line of path) {
    requirePositive("time of a line", line.endTime - line.startTime, "s");
    const endTime = Math.min(line.endTime, time);
    if (endTime <= line.startTime) continue;
    const share = (endTime - line.startTime) / (line.endTime - line.startTime);
    const toX = line.fromX + share * (line.toX - line.fromX);
    const toY = line.fromY + share * (line.toY - line.fromY);
    rise += lineRise(body, absorbedPower, radius, { ...line, endTime, toX, toY }, place, time);
  }
  return rise;
}

/** Instantaneous Gaussian pulses of one energy: where and when each falls. m and s. */
export interface PulseTrain {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** ascending */
  readonly time: Float64Array;
}

/**
 * Rise at the surface just before `time` from all pulses that fell earlier:
 * ΔT = Σ E·2/(π(w² + 8Dt))·exp(−2r²/(w² + 8Dt))·plate(0, t). absorbedEnergy E: J per pulse; radius w: m, 1/e²;
 * x, y: m; time: s. Result: K. Exact for constant properties; cost grows with the number of pulses. Throws
 * `InvalidInput`. Source: Carslaw & Jaeger, 2nd ed., 10.3.
 */
export function pulseTrainRise(
  body: PlateBody,
  absorbedEnergy: number,
  radius: number,
  train: PulseTrain,
  x: number,
  y: number,
  time: number,
): number {
  requireBody(body, radius);
  requireNonNegative("absorbed energy", absorbedEnergy, "J");
  const d = body.conductivity / body.volumetricHeat;
  let sum = 0;
  for (let i = 0; i < train.time.length && train.time[i]! < time; i++) {
    const age = time - train.time[i]!;
    const wide = radius * radius + 8 * d * age;
    const dx = x - train.x[i]!;
    const dy = y - train.y[i]!;
    const exponent = (-2 * (dx * dx + dy * dy)) / wide;
    if (exponent > -45) sum += (Math.exp(exponent) / wide) * plateDepthRise(body, 0, age);
  }
  return perPulse * absorbedEnergy * sum;
}
