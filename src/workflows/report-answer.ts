import { beamState } from "#beam";
import { type CostInputs, costPerArea, hoursForOrder } from "#cost";
import { setup as setupById } from "#library";
import { buildReport, choose, type Fact, type GradedFigure, type PartCost, type ReportModel } from "#report";
import { eyewear, fumeFlags, hazardDistances } from "#safety";
import type { EnquiryAnswer, LaserSetup, PartAnswer } from "#terms";
import { formatQuantity } from "#units";
import { layerKindsOf, partCautions } from "./cautions-of.ts";

export interface ReportOptions {
  readonly setups: readonly LaserSetup[];
  /** ISO 8601 day, handed in */
  readonly dateText: string;
  readonly documentId: string;
  readonly approver: string | null;
  /** null: no cost is worked out and the report says so */
  readonly costInputs: CostInputs | null;
  /** coupons graded from photographs */
  readonly graded?: readonly GradedFigure[];
}

/** m, where eyewear and skin are thought to be: an arm's length from the work. */
const EYEWEAR_DISTANCE = 0.5;

/** The report of an answered enquiry: recommendation, evidence, cost, hazards and cautions joined. */
export function reportAnswer(answer: EnquiryAnswer, options: ReportOptions): ReportModel {
  const costs: Record<string, PartCost> = {};
  const cautions: Record<string, string[]> = {};
  const hazard: Fact[] = [];
  const whole = new Set<string>();
  for (const part of answer.parts) {
    const chosen = choose(part);
    const setup = chosen.setupId === null ? leadSetup(part, options.setups) : setupOf(options.setups, chosen.setupId);
    if (setup === null) continue;
    const lines = partCautions(part.part, setup, chosen.setting);
    cautions[part.part.id] = lines;
    for (const line of lines) whole.add(line);
    hazard.push(...fumeFacts(part));
    if (chosen.setting === null) continue;
    hazard.unshift(...beamFacts(part, setup, chosen.setting));
    const cost = costOf(part, setup, chosen.setting, chosen.areaRate, options.costInputs);
    if (cost) costs[part.part.id] = cost;
  }
  if (whole.size === 0) whole.add("Laser work is class 4 work: local law and the laser safety officer decide.");
  return buildReport({
    answer,
    costs,
    cautions: [...whole],
    partCautions: cautions,
    hazard,
    ...(options.graded === undefined ? {} : { graded: options.graded }),
    dateText: options.dateText,
    documentId: options.documentId,
    approver: options.approver,
  });
}

function setupOf(setups: readonly LaserSetup[], id: string): LaserSetup {
  return setups.find((s) => s.id === id) ?? setupById(id);
}

function leadSetup(part: PartAnswer, setups: readonly LaserSetup[]): LaserSetup | null {
  const lead = part.verdicts[0];
  return lead ? setupOf(setups, lead.setupId) : null;
}

function costOf(
  part: PartAnswer,
  setup: LaserSetup,
  setting: Parameters<typeof beamState>[1],
  areaRate: number | null,
  inputs: CostInputs | null,
): PartCost | null {
  if (inputs === null || areaRate === null || !(areaRate > 0)) return null;
  const cost = costPerArea(setup, beamState(setup, setting).meanPower, areaRate, inputs);
  const time = hoursForOrder(part.part.area, part.part.count, areaRate, inputs.workingTime);
  return {
    low: cost.low,
    median: cost.middle,
    high: cost.high,
    currency: inputs.currency,
    hours: time.hours,
    basis: [
      `Figures: ${inputs.note}.`,
      `Laser at work ${Math.round(100 * inputs.workingTime)} % of the paid time; price range of the set-up's class.`,
      "Handling of parts is not counted.",
    ],
  };
}

function beamFacts(part: PartAnswer, setup: LaserSetup, setting: Parameters<typeof beamState>[1]): Fact[] {
  const beam = beamState(setup, setting);
  const hazards = hazardDistances(setup, setting, beam);
  const sources = hazards.sources.join(", ");
  const where = `${part.part.name}, ${setup.name}`;
  const facts: Fact[] = hazards.distances.map((d) => ({
    name: `${where}: hazard distance, ${d.path}`,
    value: `eye ${formatQuantity(d.eyeShown, "m", 3)}, skin ${formatQuantity(d.skinShown, "m", 3)}`,
    note: `${hazards.note} Sources: ${sources}.`,
  }));
  // Eyewear is chosen for the diffuse and stray beam at arm's length; the spot there is the beam on its way back out.
  const lens = setup.lenses.find((l) => l.id === setting.lens) ?? setup.lenses[0];
  const diameter = Math.max(1e-3, (setup.beamDiameterOnLens / lens.focalLength) * EYEWEAR_DISTANCE) / Math.SQRT2;
  const advice = eyewear({
    wavelength: setup.wavelength,
    meanPower: beam.meanPower,
    diameter,
    pulseEnergy: beam.onTime === null ? null : (beam.pulseEnergy ?? beam.peakPower * beam.onTime),
    onTime: beam.onTime,
    frequency: beam.onTime === null ? null : setting.frequency,
  });
  facts.push({
    name: `${where}: eyewear at ${formatQuantity(EYEWEAR_DISTANCE, "m", 2)} from the focus`,
    value: advice.marking,
    note: advice.notes.join(" "),
  });
  return facts;
}

function fumeFacts(part: PartAnswer): Fact[] {
  const metal = part.part.mixture[0]?.stack.metal ?? null;
  return fumeFlags(layerKindsOf(part.part), metal, { lead: part.part.lead, chromate: part.part.chromate }).map((f) => ({
    name: `${part.part.name}: ${f.name} (${f.action})`,
    value: f.substances.join(", "),
    note: [f.note, ...f.limits].filter((x) => x !== "").join("; "),
  }));
}
