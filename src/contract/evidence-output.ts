import { z } from "zod";
import type { EvidenceComparison, EvidenceSide } from "#report";
import { finite, finiteOrNull, share, words } from "./fields.ts";
import { range } from "./job-output.ts";
import { settingSchema } from "./setting-schema.ts";
import { settingToWire } from "./setting-wire.ts";
import { out, outOrNull, tidy } from "./wire-numbers.ts";

const sideSchema = z
  .strictObject({
    kind: z.enum(["pulsed", "continuous"]),
    trial: z.string(),
    laser: z.string(),
    name: z.string().meta({ description: "of the set-up" }),
    patches: z.int().meta({ description: "graded" }),
    recommended: z
      .strictObject({
        setting: settingSchema,
        probabilityBoth: share,
        probabilityBothLow: share,
        probabilityBothHigh: share,
        margin_percent: finiteOrNull.meta({ description: "of power, to the nearest 95 % edge" }),
        nearestEdge: z.enum(["clean", "undamaged"]).nullable(),
        areaRate_m2_per_h: finite,
        repeats: z.int(),
        repeatsGood: z.int(),
        proven: z.boolean(),
      })
      .nullable(),
    meanPower_W: finiteOrNull,
    cost_per_m2: z
      .strictObject({ low: finite, middle: finite, high: finite, currency: z.string() })
      .nullable()
      .meta({ description: "null where cost was not worked out" }),
    eyeHazardDistance_m: finiteOrNull.meta({ description: "longest over the paths of the light" }),
    eyewear: z.string().nullable(),
  })
  .meta({ id: "evidence-side" });

/** Pulsed against continuous by what was burned. */
export const evidenceSchema = z
  .strictObject({
    pulsed: sideSchema.nullable(),
    continuous: sideSchema.nullable(),
    words: words.meta({ description: "which does better and why, or why nothing is said" }),
    equal: words,
    unequal: words,
    cautions: words.meta({ description: "of every setting shown" }),
  })
  .meta({ id: "evidence", title: "Scourlight comparison of pulsed and continuous by what was burned" });

export type EvidenceWire = z.output<typeof evidenceSchema>;
export type EvidenceSideWire = z.output<typeof sideSchema>;

/** `laserOf`: set-up of a trial by its id. */
export function evidenceToWire(
  found: EvidenceComparison,
  laserOf: (trialId: string) => string,
  cautions: readonly string[],
): EvidenceWire {
  return {
    pulsed: found.pulsed && sideToWire(found.pulsed, laserOf),
    continuous: found.continuous && sideToWire(found.continuous, laserOf),
    words: [...found.words],
    equal: [...found.equal],
    unequal: [...found.unequal],
    cautions: [...cautions],
  };
}

function sideToWire(side: EvidenceSide, laserOf: (trialId: string) => string): EvidenceSideWire {
  const { recommendation: r, cost } = side;
  return {
    kind: side.kind,
    trial: side.trialId,
    laser: laserOf(side.trialId),
    name: side.setupName,
    patches: side.patches,
    recommended: r && {
      setting: settingToWire(r.setting),
      probabilityBoth: tidy(r.probabilityBoth),
      probabilityBothLow: tidy(r.probabilityBothLow),
      probabilityBothHigh: tidy(r.probabilityBothHigh),
      margin_percent: outOrNull(r.margin.powerPercent, ""),
      nearestEdge: r.margin.nearestEdge,
      areaRate_m2_per_h: out(r.areaRate, "m2/h"),
      repeats: r.repeats,
      repeatsGood: r.repeatsGood,
      proven: r.proven,
    },
    meanPower_W: outOrNull(side.meanPower, "W"),
    cost_per_m2: cost && { ...range(cost), currency: cost.currency },
    eyeHazardDistance_m: outOrNull(side.hazard, "m"),
    eyewear: side.eyewear,
  };
}
