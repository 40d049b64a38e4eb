import { z } from "zod";
import type { EdgeSpread, LaserSetup, SetupVerdict, TwoEdgeBar } from "#terms";
import { finite, finiteOrNull, share, spreadField, words } from "./fields.ts";
import { predictionSchema, predictionToWire } from "./prediction-output.ts";
import { spreadToWire } from "./spread-wire.ts";
import { out, outOrNull, tidy } from "./wire-numbers.ts";

const barSchema = z.strictObject({
  axis: z
    .enum(["fluence", "dose"])
    .meta({ description: "peak fluence (pulsed) or areal dose of one pass (continuous)" }),
  removalEdge_J_per_cm2: spreadField.nullable(),
  damageEdge_J_per_cm2: spreadField.nullable(),
  reachLow_J_per_cm2: finite,
  reachHigh_J_per_cm2: finite,
  best_J_per_cm2: finiteOrNull,
});

/** Why a set-up falls short, in the fixed words of the trade. */
const shortfalls = [
  "none",
  "does not remove",
  "melts the metal",
  "too slow",
  "cannot reach the face",
  "not allowed on site",
  "harms the layer that must stay",
] as const;

export const verdictSchema = z
  .strictObject({
    laser: z.string(),
    name: z.string(),
    kind: z.enum(["pulsed", "continuous"]),
    delivery: z.enum(["scanner", "hand", "robot"]),
    windowExists: z.boolean(),
    shortfall: z.enum(shortfalls),
    reason: z.string(),
    areaRate_m2_per_h: finite,
    sureness: share.meta({ description: "share of the draws in which the best setting is clean and undamaged" }),
    meanPower_W: finite,
    best: predictionSchema.nullable(),
    bar: barSchema,
  })
  .meta({ id: "verdict", title: "Scourlight verdict on one laser set-up" });

export const surveySchema = z
  .strictObject({ part: z.string(), verdicts: z.array(verdictSchema), cautions: words, modelVersion: z.string() })
  .meta({ title: "Scourlight survey of the laser set-ups" });

export type VerdictWire = z.output<typeof verdictSchema>;
export type SurveyWire = z.output<typeof surveySchema>;

/** Cautions that belong to a setting on a set-up; handed in, since #safety computes them. */
export type CautionsOf = (setupId: LaserSetup["id"]) => readonly string[];

const edge = (spread: EdgeSpread | null) => (spread === null ? null : spreadToWire(spread, "J/cm2"));

function barToWire(bar: TwoEdgeBar): VerdictWire["bar"] {
  return {
    axis: bar.axis,
    removalEdge_J_per_cm2: edge(bar.removalEdge),
    damageEdge_J_per_cm2: edge(bar.damageEdge),
    reachLow_J_per_cm2: out(bar.reachLow, "J/cm2"),
    reachHigh_J_per_cm2: out(bar.reachHigh, "J/cm2"),
    best_J_per_cm2: outOrNull(bar.best, "J/cm2"),
  };
}

export function verdictToWire(verdict: SetupVerdict, cautionsOf: CautionsOf): VerdictWire {
  return {
    laser: verdict.setupId,
    name: verdict.setupName,
    kind: verdict.kind,
    delivery: verdict.delivery,
    windowExists: verdict.windowExists,
    shortfall: verdict.shortfall,
    reason: verdict.reason,
    areaRate_m2_per_h: out(verdict.areaRate, "m2/h"),
    sureness: tidy(verdict.sureness),
    meanPower_W: out(verdict.meanPower, "W"),
    best: verdict.best === null ? null : predictionToWire(verdict.best, cautionsOf(verdict.setupId)),
    bar: barToWire(verdict.bar),
  };
}

export function surveyToWire(
  partId: string,
  verdicts: readonly SetupVerdict[],
  cautionsOf: CautionsOf,
  modelVersion: string,
): SurveyWire {
  const shown = verdicts.filter((v) => v.best !== null).flatMap((v) => cautionsOf(v.setupId));
  return {
    part: partId,
    verdicts: verdicts.map((v) => verdictToWire(v, cautionsOf)),
    cautions: [...new Set(shown)],
    modelVersion,
  };
}
