import { findRoot } from "#numerics";
import { requireInteger, requireNonNegative, requirePositive } from "#units";

/** A plate-like part that is cleaned pass after pass; what leaves by its surface follows Newton's law. SI. */
export interface PartHeating {
  /** W absorbed on average while a pass runs */
  readonly absorbedPower: number;
  /** s that a pass takes */
  readonly passTime: number;
  /** passes over the whole job */
  readonly passes: number;
  /** J/K of the whole part: volumetric heat × volume */
  readonly heatCapacity: number;
  /** W/K to the surroundings: heat transfer coefficient × free surface; 0 when nothing leaves */
  readonly loss: number;
}

function requirePart(part: PartHeating): number {
  requireNonNegative("absorbed power", part.absorbedPower, "W");
  requirePositive("pass time", part.passTime, "s");
  requireInteger("passes", part.passes, 1);
  requirePositive("heat capacity", part.heatCapacity, "J/K");
  return requireNonNegative("loss", part.loss, "W/K") / part.heatCapacity;
}

/** (1 − e^(−x))/x, 1 at 0. */
function share(x: number): number {
  return x < 1e-12 ? 1 : -Math.expm1(-x) / x;
}

/** Rise that a pass alone has brought at its end, K. */
function onePass(part: PartHeating, rate: number): number {
  return ((part.absorbedPower * part.passTime) / part.heatCapacity) * share(rate * part.passTime);
}

/**
 * Mean rise of a part at the end of pass `pass` (1-based) with a pause of `wait` between passes:
 * C·dT/dt = P(t) − G·T, so ΔT_n = q·(1 − e^(−n·a))/(1 − e^(−a)), q = (P/G)(1 − e^(−G·t_p/C)), a = G·(t_p + wait)/C;
 * without loss ΔT_n = n·P·t_p/C. Units: `PartHeating`, wait s ≥ 0; result K. Range: even temperature through the part
 * (Biot number below about 0.1 sideways and through), constant properties; the scanned patch itself is hotter: add
 * `warmingBound` or a map. Throws `InvalidInput`. Source: lumped heat capacity, Incropera and DeWitt, ch. 5.
 */
export function partRise(part: PartHeating, pass: number, wait: number): number {
  const rate = requirePart(part);
  requireInteger("pass", pass, 1);
  const a = rate * (part.passTime + requireNonNegative("waiting time", wait, "s"));
  const sum = a * pass < 1e-12 ? pass : Math.expm1(-pass * a) / Math.expm1(-a);
  return onePass(part, rate) * sum;
}

/** What a limit on the mean temperature of a part asks for. */
export type Waiting =
  | { readonly kind: "none" }
  | { readonly kind: "wait" /** s between passes */; readonly time: number }
  | {
      readonly kind: "never";
      /** passes that stay within the limit without a pause; after them the part has to cool by itself */
      readonly passesWithin: number;
    };

/**
 * Shortest pause between passes that keeps the mean rise of a part at or below `limit` at the end of every pass, root
 * of ΔT_N(wait) = limit of `partRise`; "never" when a single pass already passes the limit, or nothing leaves the
 * part. limit: K above the surroundings, > 0. Result: s. Exact for the lumped model. Throws `InvalidInput`.
 * Source: as `partRise`.
 */
export function waitingTime(part: PartHeating, limit: number): Waiting {
  const rate = requirePart(part);
  requirePositive("limit of the rise", limit, "K");
  if (partRise(part, part.passes, 0) <= limit) return { kind: "none" };
  const single = onePass(part, rate);
  if (single >= limit || rate === 0) return { kind: "never", passesWithin: passesWithin(part, limit) };
  // Even an endless row of passes keeps the limit when e^(−a) = 1 − q/limit: a bracket for the finite job.
  const high = Math.max(0, -Math.log1p(-single / limit) / rate - part.passTime) + part.passTime;
  const time = findRoot((wait) => partRise(part, part.passes, wait) / limit - 1, 0, high);
  return { kind: "wait", time };
}

function passesWithin(part: PartHeating, limit: number): number {
  let pass = 0;
  while (pass < part.passes && partRise(part, pass + 1, 0) <= limit) pass++;
  return pass;
}
