import { trainRise, warmingBound } from "#heat";
import type { BeamState, LaserSetup, Setting } from "#terms";

/** The geometry of warming for one setting: rise per watt of absorbed mean power, K/W. */
export interface Warming {
  /** K/W just before an event, at the hottest place of the patch */
  readonly perAbsorbedWatt: number;
  /** s, how long the neighbourhood of a point is being scanned */
  readonly exposure: number;
  /** s from one line to the next, turn-round included */
  readonly lineTime: number;
}

/** Warming of a patch of the given size by one setting, own line and earlier lines and passes together. */
export function warmingOf(
  setup: LaserSetup,
  setting: Setting,
  beam: BeamState,
  metal: { conductivity: number; volumetricHeat: number },
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
      ? trainRise(
          { conductivity: metal.conductivity, volumetricHeat: metal.volumetricHeat, plateThickness },
          { frequency: setting.frequency, speed: setting.speed, radius: beam.spotDiameter / 2, length: patch.width },
        )
      : 0;
  const lineTime = patch.width / setting.speed + turnTime;
  const exposure = Math.max(1, beam.spotDiameter / setting.lineSpacing) * lineTime * setting.passes;
  return { perAbsorbedWatt: others + own, exposure, lineTime };
}
