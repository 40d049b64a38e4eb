import { completeSetting } from "#beam";
import { parseSetting, predictionToWire } from "#contract";
import { settingLine } from "#report";
import type { Prediction } from "#terms";
import { formatQuantity, invalid } from "#units";
import { bowEstimate, partCautions, predict } from "#workflows";
import { bandLines, type BandFlags, readBand } from "./predict-band.ts";
import { bowText, readStiffness, type StiffnessFlags } from "./predict-bow.ts";
import { readJson } from "./files.ts";
import { carriedLines, carriedNotes, knownBeliefs } from "./known.ts";
import { loadPart, modelOf, type PhysicsFlags } from "./load.ts";
import { GRADES, cautionLines, json } from "./show.ts";

export interface PredictFlags extends PhysicsFlags, BandFlags, StiffnessFlags {
  readonly laser?: string;
  readonly setting?: string;
  readonly json?: boolean;
}

/** `predict`: one setting on one set-up. */
export async function predictVerb(flags: PredictFlags): Promise<string> {
  const asked = readBand(flags);
  const strength = readStiffness(flags);
  if (flags.json && (asked.swing !== null || asked.angle !== null || strength !== null))
    invalid("output", "--json", "", "bands and bow are told in words only: leave out --json or their flags");
  const { library, part } = await loadPart(flags);
  const setup = library.setup(flags.laser as string);
  const setting = completeSetting(setup, parseSetting(await readJson(flags.setting as string, "setting"), setup));
  const model = modelOf(part, flags, await knownBeliefs(flags.known));
  const bare = predict(model, setup, setting);
  const prediction = flags.json ? { ...bare, caveats: [...bare.caveats, ...carriedNotes(flags.known, model)] } : bare;
  const cautions = partCautions(part, setup, setting);
  if (flags.json) return json(predictionToWire(prediction, cautions));
  return [
    `${part.name} with ${setup.name}`,
    settingLine(setting),
    "",
    ...predictionLines(prediction),
    `bow               ${bowText(bowEstimate(model, prediction, strength))}`,
    ...bandLines(model, setup, setting, asked),
    ...carriedLines(flags.known, model),
    "",
    ...cautionLines(cautions),
  ].join("\n");
}

export function predictionLines(p: Prediction): string[] {
  const spread = (s: { median: number; low: number; high: number }, unit: string, digits = 3) =>
    `${formatQuantity(s.median, unit, digits)} (90 % of versions: ${formatQuantity(s.low, unit, digits)} to ${formatQuantity(s.high, unit, digits)})`;
  return [
    `residue           ${spread(p.residueFraction, "%", 2)}`,
    `metal             ${GRADES[p.metalCondition]}, hottest ${spread(p.metalPeakTemperature, "degC")}`,
    `melt depth        ${spread(p.meltDepth, "um", 2)}`,
    `clean             in ${Math.round(100 * p.probabilityClean)} of 100 versions of the physics`,
    `undamaged         in ${Math.round(100 * p.probabilityUndamaged)} of 100`,
    `area rate         ${formatQuantity(p.areaRate, "m2/h", 2)}`,
    `mean power        ${formatQuantity(p.beam.meanPower, "W", 3)}, peak irradiance ${formatQuantity(p.beam.irradiancePeak, "W/cm2", 3)}`,
    ...(p.beam.fluencePeak === null ? [] : [`peak fluence      ${formatQuantity(p.beam.fluencePeak, "J/cm2", 3)}`]),
    ...p.caveats.map((c) => `note: ${c}`),
  ];
}
