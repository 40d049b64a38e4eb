import { z } from "zod";
import type { Chosen, EvidenceComparison, PartJob } from "#report";
import type { EyewearAdvice, FumeFlag, HazardDistances } from "#safety";
import type { LaserSetup, PartAnswer } from "#terms";
import { comparisonSchema, comparisonToWire } from "./comparison-output.ts";
import { evidenceSchema, evidenceToWire } from "./evidence-output.ts";
import { finite, words } from "./fields.ts";
import { jobSchema, jobToWire } from "./job-output.ts";
import { settingSchema } from "./setting-schema.ts";
import { settingToWire } from "./setting-wire.ts";
import type { CautionsOf } from "./verdict-output.ts";
import { out } from "./wire-numbers.ts";

const hazardSchema = z.strictObject({
  distances: z.array(z.strictObject({ path: z.string(), eye_m: finite, skin_m: finite })),
  note: z.string(),
  sources: words,
});

const fumeSchema = z.strictObject({
  name: z.string(),
  action: z.enum(["stop", "test first", "capture"]),
  substances: words,
  limits: words,
  note: z.string(),
  sources: words,
});

const partSchema = z.strictObject({
  part: z.string(),
  name: z.string(),
  footing: z
    .enum(["proven", "tried", "predicted", "none", "declined"])
    .meta({ description: "how well the recommended setting is borne out" }),
  words: z.string(),
  laser: z.string().nullable(),
  laserName: z.string().nullable(),
  setting: settingSchema.nullable().meta({ description: "null where none is recommended" }),
  job: jobSchema.nullable(),
  hazard: hazardSchema.nullable(),
  eyewear: z.strictObject({ marking: z.string(), notes: words, sources: words }).nullable(),
  fume: z.array(fumeSchema),
  evidence: evidenceSchema.nullable().meta({ description: "null where no patch was burned" }),
  comparison: comparisonSchema.nullable().meta({ description: "pulsed and continuous by prediction" }),
  notMeasured: words.meta({ description: "acceptance tests asked for without a measured value" }),
  cautions: words,
});

/** What an answer says of each part besides its verdicts and windows: delivery, time, cost, hazards, evidence. */
export const detailsSchema = z
  .strictObject({ enquiry: z.string(), parts: z.array(partSchema), modelVersion: z.string() })
  .meta({ title: "Scourlight details of an answer" });

export type DetailsWire = z.output<typeof detailsSchema>;
export type PartDetailsWire = DetailsWire["parts"][number];

/** The details of one part, SI. */
export interface PartDetailsOutput {
  readonly part: PartAnswer;
  readonly chosen: Chosen;
  readonly setup: Pick<LaserSetup, "id" | "name"> | null;
  readonly setting: {
    readonly hazards: HazardDistances;
    readonly eyewear: EyewearAdvice;
    readonly job: PartJob | null;
  } | null;
  readonly cautions: readonly string[];
  readonly fume: readonly FumeFlag[];
  readonly evidence: EvidenceComparison | null;
  readonly evidenceCautions: readonly string[];
}

export function detailsToWire(
  parts: readonly PartDetailsOutput[],
  about: { readonly enquiry: string; readonly modelVersion: string },
  cautionsOf: (partId: string) => CautionsOf,
): DetailsWire {
  return { ...about, parts: parts.map((p) => partToWire(p, cautionsOf(p.part.part.id))) };
}

function partToWire(details: PartDetailsOutput, cautionsOf: CautionsOf): PartDetailsWire {
  const { chosen, setting } = details;
  const { part, comparison, trials } = details.part;
  const laserOf = (trialId: string): string => trials.find(({ trial }) => trial.id === trialId)?.trial.setupId ?? "";
  return {
    part: part.id,
    name: part.name,
    footing: chosen.evidence,
    words: chosen.words,
    laser: chosen.setupId,
    laserName: chosen.setupName,
    setting: chosen.setting && settingToWire(chosen.setting),
    job: setting?.job ? jobToWire(setting.job) : null,
    hazard: setting && {
      distances: setting.hazards.distances.map((d) => ({
        path: d.path,
        eye_m: out(d.eyeShown, "m"),
        skin_m: out(d.skinShown, "m"),
      })),
      note: setting.hazards.note,
      sources: [...setting.hazards.sources],
    },
    eyewear: setting && {
      marking: setting.eyewear.marking,
      notes: [...setting.eyewear.notes],
      sources: [...setting.eyewear.sources],
    },
    fume: details.fume.map(({ name, action, substances, limits, note, sources }) => ({
      name,
      action,
      substances: [...substances],
      limits: [...limits],
      note,
      sources: [...sources],
    })),
    evidence: details.evidence && evidenceToWire(details.evidence, laserOf, details.evidenceCautions),
    comparison: comparison && comparisonToWire(comparison, cautionsOf),
    notMeasured: part.acceptance.tests.filter((t) => t.value === null).map((t) => `${t.kind} (${t.method})`),
    cautions: [...details.cautions],
  };
}
