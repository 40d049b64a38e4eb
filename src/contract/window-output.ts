import { z } from "zod";
import type { NextPatch, Recommendation, WindowResult } from "#terms";
import { finite, finiteOrNull, share, words } from "./fields.ts";
import { learntSchema, learntToWire, stopSchema, stopToWire } from "./learnt-output.ts";
import { mapSchema, mapToWire } from "./window-map-output.ts";
import { settingSchema } from "./setting-schema.ts";
import { settingToWire } from "./setting-wire.ts";
import { out, outOrNull, tidy } from "./wire-numbers.ts";

const marginSchema = z
  .strictObject({
    logDose: finiteOrNull.meta({ description: "ln distance to the nearest 95 % edge in fluence (pulsed) or dose" }),
    power_percent: finiteOrNull.meta({ description: "the same in per cent of power" }),
    nearestEdge: z.enum(["clean", "undamaged"]).nullable(),
  })
  .meta({ description: "null inside where the setting lies outside or no edge is in reach" });

const recommendationSchema = z.strictObject({
  setting: settingSchema,
  probabilityClean: share,
  probabilityUndamaged: share,
  probabilityBoth: share,
  probabilityBothLow: share,
  probabilityBothHigh: share,
  margin: marginSchema,
  areaRate_m2_per_h: finite,
  repeats: z.int(),
  repeatsGood: z.int(),
  proven: z.boolean(),
  words,
});

export const nextPatchSchema = z.strictObject({
  setting: settingSchema,
  probabilityClean: share,
  probabilityUndamaged: share,
  reason: z.string(),
});

export const windowSchema = z
  .strictObject({
    laser: z.string(),
    trial: z.string(),
    recommended: recommendationSchema.nullable(),
    next: z.array(nextPatchSchema),
    map: mapSchema.nullable(),
    diagnostics: z.strictObject({
      patches: z.int(),
      clean: z.int(),
      damaged: z.int(),
      rHat: finiteOrNull,
      effectiveSampleSize: finiteOrNull,
      brierClean: finiteOrNull,
      brierUndamaged: finiteOrNull,
      priorMatters: z.string(),
    }),
    stop: stopSchema.optional().meta({ description: "whether the trial may end; left out by earlier versions" }),
    learnt: learntSchema.optional().meta({ description: "what the patches taught; left out by earlier versions" }),
    words,
    caveats: words,
    cautions: words,
    modelVersion: z.string(),
  })
  .meta({ id: "window", title: "Scourlight process window" });

export type WindowWire = z.output<typeof windowSchema>;

function recommendationToWire(r: Recommendation): NonNullable<WindowWire["recommended"]> {
  return {
    setting: settingToWire(r.setting),
    probabilityClean: tidy(r.probabilityClean),
    probabilityUndamaged: tidy(r.probabilityUndamaged),
    probabilityBoth: tidy(r.probabilityBoth),
    probabilityBothLow: tidy(r.probabilityBothLow),
    probabilityBothHigh: tidy(r.probabilityBothHigh),
    margin: {
      logDose: outOrNull(r.margin.logDose, ""),
      power_percent: outOrNull(r.margin.powerPercent, ""),
      nearestEdge: r.margin.nearestEdge,
    },
    areaRate_m2_per_h: out(r.areaRate, "m2/h"),
    repeats: r.repeats,
    repeatsGood: r.repeatsGood,
    proven: r.proven,
    words: [...r.words],
  };
}

export function nextToWire(next: NextPatch): WindowWire["next"][number] {
  return {
    setting: settingToWire(next.setting),
    probabilityClean: tidy(next.probabilityClean),
    probabilityUndamaged: tidy(next.probabilityUndamaged),
    reason: next.reason,
  };
}

/** A window in the units of its output; the map keeps the axes that its names state. */
export function windowToWire(
  window: WindowResult,
  about: { readonly laser: string; readonly trial: string; readonly modelVersion: string },
  cautions: readonly string[],
): WindowWire {
  const { diagnostics: d, map } = window;
  return {
    laser: about.laser,
    trial: about.trial,
    recommended: window.recommended === null ? null : recommendationToWire(window.recommended),
    next: window.next.map(nextToWire),
    map: map === null ? null : mapToWire(map),
    diagnostics: {
      patches: d.patches,
      clean: d.clean,
      damaged: d.damaged,
      rHat: outOrNull(d.rHat, ""),
      effectiveSampleSize: outOrNull(d.effectiveSampleSize, ""),
      brierClean: outOrNull(d.brierClean, ""),
      brierUndamaged: outOrNull(d.brierUndamaged, ""),
      priorMatters: d.priorMatters,
    },
    stop: stopToWire(window.stop),
    learnt: learntToWire(window.learnt),
    words: [...window.words],
    caveats: [...window.caveats],
    cautions: [...cautions],
    modelVersion: about.modelVersion,
  };
}
