import { beamState } from "#beam";
import type { LaserSetup, Setting } from "#terms";
import type { WorldLaws } from "./draw-laws.ts";
import { type Exposure, rasterExposure } from "./raster-exposure.ts";
import type { SpotShape } from "./spot-shape.ts";

/** What a setting does at one watt of mean power, all but its power. */
export interface RayConditions {
  /** ln of the strength at the centre of an event per watt: J/m² (pulses) or W/m² (lines and bursts) */
  readonly lnPerWatt: number;
  /** ln moved by time and spot, removal and damage; the count of events belongs to damage alone */
  readonly lnRemoval: number;
  readonly lnDamage: number;
  /** what warms, per watt: 1 brings half of the most that warming can do */
  readonly warmingPerWatt: number;
  readonly exposure: Exposure;
}

/** Peak of a Gaussian over its energy in the square of its diameter. */
const PEAK = 8 / Math.PI;
const TIMES = { pulse: 100e-9, line: 1e-3 } as const;
const SPOT = 200e-6;

/** All of a setting but its power: settings with the same key differ in power only. */
export function rayKey(s: Setting): string {
  return `${s.lens}|${s.defocus}|${s.frequency}|${s.pulseWidth}|${s.duty}|${s.speed}|${s.lineSpacing}|${s.passes}`;
}

/** Mean power at the work, W; what the largest pulse does not allow is gone. */
export function meanPowerOf(setup: LaserSetup, setting: Setting): number {
  return beamState(setup, setting).meanPower;
}

/**
 * Conditions of a setting with its spot and speed off by factors.
 *
 * Equation: pulses: F = 8/π·P/(f·d²), threshold ∝ τ^a; lines and bursts: I = 8/π·P/(duty·d²), threshold on I·t^a with
 * 1/t = 1/t_on + v/d + D/d²; both thresholds ∝ d^c; warming by P·passes/(v·s)/dose + P/d²·√(d/v)/load.
 * Units: factors 1, results per watt. Range: a setting that the set-up can run. Errors: those of beamState. Source: own, invented.
 */
export function rayConditions(
  setup: LaserSetup,
  setting: Setting,
  laws: WorldLaws,
  shape: SpotShape,
  spot = 1,
  speed = 1,
): RayConditions {
  const beam = beamState(setup, setting);
  const d = beam.spotDiameter * spot;
  const v = setting.speed * speed;
  const pulsed = setting.pulseWidth !== null && setting.frequency !== null;
  const burst = beam.onTime;
  const rate = 1 / (burst ?? Infinity) + v / d + laws.spread / (d * d);
  const lnTime = pulsed ? -Math.log(setting.pulseWidth / TIMES.pulse) : -Math.log(rate * TIMES.line);
  const perEvent = pulsed ? 1 / setting.frequency : 1 / setting.duty;
  const exposure = rasterExposure(
    {
      pitch: beam.pulsePitch === null ? Infinity : beam.pulsePitch * speed,
      drawnOut: pulsed || burst === null ? 0 : v * burst,
      spacing: setting.lineSpacing,
      passes: setting.passes,
      spotRadius: d / 2,
    },
    laws,
    shape,
  );
  const lnSpot = Math.log(d / SPOT);
  return {
    lnPerWatt: Math.log((PEAK * perEvent) / (d * d)),
    lnRemoval: laws.removalTimeExponent * lnTime - laws.removalSpotExponent * lnSpot,
    lnDamage:
      laws.damageTimeExponent * lnTime -
      laws.damageSpotExponent * lnSpot -
      laws.damageCountExponent * exposure.lnEvents,
    warmingPerWatt:
      setting.passes / (v * setting.lineSpacing) / laws.warmingDose + Math.sqrt(d / v) / (d * d) / laws.warmingLoad,
    exposure,
  };
}

/** ln strength after the plume's shade, raised by warming, at a mean power of exp(lnPower) W; rises with power. */
function lnDrive(ray: RayConditions, laws: WorldLaws, lnPower: number): number {
  const ln = ray.lnPerWatt + lnPower;
  const shaded = ln > laws.lnPlume ? laws.lnPlume + laws.plumeSlope * (ln - laws.lnPlume) : ln;
  const warm = ray.warmingPerWatt * Math.exp(lnPower);
  return shaded + (laws.warmingMost * warm) / (1 + warm);
}

/** ln of what counts against the removal threshold. Argument ln W. */
export const lnRemovalDrive = (ray: RayConditions, laws: WorldLaws, lnPower: number): number =>
  lnDrive(ray, laws, lnPower) + ray.lnRemoval;

/** ln of what counts against the damage threshold. Argument ln W. */
export const lnDamageDrive = (ray: RayConditions, laws: WorldLaws, lnPower: number): number =>
  lnDrive(ray, laws, lnPower) + ray.lnDamage;

/** Middle of the slopes of a drive: from 0.65 (shaded) to 1.55 (warming at its steepest). */
const SLOPE = 1.1;
/** Steps of a fixed point whose error shrinks to 0.41 or less each time: below a millionth. */
const STEPS = 18;

/** ln W at which a drive that rises with a slope between 0.65 and 1.55 reaches a level. */
export function lnPowerAt(drive: (lnPower: number) => number, level: number): number {
  let at = level - drive(0);
  for (let i = 0; i < STEPS; i++) at += (level - drive(at)) / SLOPE;
  return at;
}
