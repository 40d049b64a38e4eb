import { z } from "zod";
import type { Prediction } from "#terms";
import { finite, finiteOrNull, metalConditionField, share, spreadField, words } from "./fields.ts";
import { settingSchema } from "./setting-schema.ts";
import { settingToWire } from "./setting-wire.ts";
import { spreadToWire } from "./spread-wire.ts";
import { out, outOrNull, tidy } from "./wire-numbers.ts";

/** What `predict --json` prints. Names are stable; null where a value has no meaning on the set-up. */
export const predictionSchema = z
  .strictObject({
    laser: z.string().meta({ description: "laser set-up id" }),
    setting: settingSchema,
    residueFraction: share.meta({
      description: "share of the patch, less a 1 mm rim, with more than max(1 um, 5 % of the layer) left; median",
    }),
    metalPeakTemperature_K: finite,
    meltDepth_um: finite,
    metalCondition: metalConditionField,
    metalConditionShares: z.array(share).meta({ description: "share of the draws in each metal condition, 0 first" }),
    areaRate_m2_per_h: finite,
    fluencePeak_J_per_cm2: finiteOrNull,
    irradiancePeak_W_per_cm2: finite,
    dwell_s: finiteOrNull,
    lineEnergy_J_per_m: finite,
    pulseOverlap: finiteOrNull,
    lineOverlap: finite,
    meanPower_W: finite,
    probabilityClean: share,
    probabilityUndamaged: share,
    probabilityBoth: share,
    spreads: z.strictObject({
      residueFraction: spreadField,
      metalPeakTemperature_K: spreadField,
      meltDepth_um: spreadField,
    }),
    caveats: words,
    sources: words.meta({ description: "source ids" }),
    cautions: words.meta({ description: "to be read before the setting is used; they defer to local law" }),
    modelVersion: z.string(),
  })
  .meta({ id: "prediction", title: "Scourlight prediction" });

export type PredictionWire = z.output<typeof predictionSchema>;

/** A prediction in the units of its output. `cautions` go along with every setting shown. */
export function predictionToWire(prediction: Prediction, cautions: readonly string[]): PredictionWire {
  const { beam } = prediction;
  return {
    laser: prediction.setupId,
    setting: settingToWire(prediction.setting),
    residueFraction: tidy(prediction.residueFraction.median),
    metalPeakTemperature_K: tidy(prediction.metalPeakTemperature.median),
    meltDepth_um: out(prediction.meltDepth.median, "um"),
    metalCondition: prediction.metalCondition,
    metalConditionShares: prediction.metalConditionShares.map(tidy),
    areaRate_m2_per_h: out(prediction.areaRate, "m2/h"),
    fluencePeak_J_per_cm2: outOrNull(beam.fluencePeak, "J/cm2"),
    irradiancePeak_W_per_cm2: out(beam.irradiancePeak, "W/cm2"),
    dwell_s: outOrNull(beam.dwell, "s"),
    lineEnergy_J_per_m: out(beam.lineEnergy, "J/m"),
    pulseOverlap: outOrNull(beam.pulseOverlap, ""),
    lineOverlap: tidy(beam.lineOverlap),
    meanPower_W: out(beam.meanPower, "W"),
    probabilityClean: tidy(prediction.probabilityClean),
    probabilityUndamaged: tidy(prediction.probabilityUndamaged),
    probabilityBoth: tidy(prediction.probabilityBoth),
    spreads: {
      residueFraction: spreadToWire(prediction.residueFraction, ""),
      metalPeakTemperature_K: spreadToWire(prediction.metalPeakTemperature, "K"),
      meltDepth_um: spreadToWire(prediction.meltDepth, "um"),
    },
    caveats: [...prediction.caveats],
    sources: [...prediction.sources],
    cautions: [...cautions],
    modelVersion: prediction.modelVersion,
  };
}
