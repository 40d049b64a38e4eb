import { plateImages, warmingBound } from "#heat";
import type { BeamState, LaserSetup, MetrePerSecond, Setting } from "#terms";

/** The geometry of warming for one setting: rise per watt of absorbed mean power, K/W. */
export interface Warming {
  /** K/W just before an event, at the hottest place of the patch */
  readonly perAbsorbedWatt: number;
  /** s, how long the neighbourhood of a point is being scanned */
  readonly exposure: number;
  /** s from one line to the next, turn-round included */
  readonly lineTime: number;
}

/** Pulses of the own line that are summed one by one; older ones are grouped in spans that grow by this ratio. */
const EXACT_PULSES = 12;
const SPAN_RATIO = 1.25;

/**
 * Rise at a pulse's own spot left by the earlier pulses of its line, per watt of absorbed mean power.
 *
 * Equation: Σ_n 2/(f·π(w² + 8Dt_n)) · exp(−2(v·t_n)²/(w² + 8Dt_n)) / (ρc·√(πDt_n)) · plate images, t_n = n/f.
 * Units: frequency Hz, speed m/s, radius m, conductivity W/(m·K), diffusivity m²/s, plateThickness m; result K/W.
 * Range: all above 0; half-space or plate with insulated faces, laterally infinite. Errors: none.
 * Source: instantaneous Gaussian surface source, Carslaw and Jaeger 1959, 10.3; sum by groups, own.
 */
export function ownLineRise(
  frequency: number,
  speed: MetrePerSecond,
  radius: number,
  conductivity: number,
  diffusivity: number,
  plateThickness: number,
  lineLength: number,
): number {
  const last = Math.max(1, Math.floor((lineLength / speed) * frequency));
  const term = (n: number) => {
    const t = n / frequency;
    const wide = radius * radius + 8 * diffusivity * t;
    const shift = speed * t;
    const images = plateImages((plateThickness * plateThickness) / (diffusivity * t));
    return (
      (2 / (frequency * Math.PI * wide)) *
      Math.exp((-2 * shift * shift) / wide) *
      images *
      (diffusivity / (conductivity * Math.sqrt(Math.PI * diffusivity * t)))
    );
  };
  let sum = 0;
  let n = 1;
  for (; n <= Math.min(EXACT_PULSES, last); n++) sum += term(n);
  while (n <= last) {
    const next = Math.min(last + 1, Math.max(n + 1, Math.floor(n * SPAN_RATIO)));
    sum += term(Math.sqrt(n * (next - 1))) * (next - n);
    n = next;
  }
  return sum;
}

/** Warming of a patch of the given size by one setting, own line and earlier lines and passes together. */
export function warmingOf(
  setup: LaserSetup,
  setting: Setting,
  beam: BeamState,
  metal: { conductivity: number; volumetricHeat: number; diffusivity: number },
  plateThickness: number,
  patch: { width: number; height: number },
): Warming {
  const lines = Math.max(1, Math.round(patch.height / setting.lineSpacing));
  const turnTime = (2 * setting.speed) / setup.acceleration;
  const others = warmingBound({
    absorbedPower: 1,
    spotDiameter: beam.spotDiameter,
    speed: setting.speed,
    lineSpacing: setting.lineSpacing,
    lineLength: patch.width,
    lines,
    passes: setting.passes,
    plateThickness,
    conductivity: metal.conductivity,
    volumetricHeat: metal.volumetricHeat,
    turnTime,
  });
  const own =
    beam.onTime !== null && setting.frequency !== null
      ? ownLineRise(
          setting.frequency,
          setting.speed,
          beam.spotDiameter / 2,
          metal.conductivity,
          metal.diffusivity,
          plateThickness,
          patch.width,
        )
      : 0;
  const lineTime = patch.width / setting.speed + turnTime;
  const exposure = Math.max(1, beam.spotDiameter / setting.lineSpacing) * lineTime * setting.passes;
  return { perAbsorbedWatt: others + own, exposure, lineTime };
}
