import type { Shop } from "#contract";
import {
  buildReport,
  type EvidenceComparison,
  type Fact,
  type GradedFigure,
  type HazardZone,
  type PartCost,
  type PartJob,
  type ReportModel,
} from "#report";
import type { EnquiryAnswer, LaserSetup } from "#terms";
import { formatQuantity } from "#units";
import { airflowFact } from "./airflow-fact.ts";
import { answerDetails, EYEWEAR_DISTANCE, type PartDetails, type SettingDetails } from "./part-details.ts";

export interface ReportOptions {
  readonly setups: readonly LaserSetup[];
  /** ISO 8601 day, handed in */
  readonly dateText: string;
  readonly documentId: string;
  /** "1" when not given */
  readonly revision?: string;
  readonly approver: string | null;
  /** null: neither time nor cost is worked out and the report says so */
  readonly shop: Shop | null;
  /** coupons graded from photographs */
  readonly graded?: readonly GradedFigure[];
  /** answerDetails of the same answer and figures, where the caller has them already */
  readonly details?: readonly PartDetails[];
}

/** The report of an answered enquiry: recommendation, evidence, cost, hazards and cautions joined. */
export function reportAnswer(answer: EnquiryAnswer, options: ReportOptions): ReportModel {
  const costs: Record<string, PartCost> = {};
  const jobs: Record<string, PartJob> = {};
  const evidence: Record<string, EvidenceComparison> = {};
  const zones: HazardZone[] = [];
  const cautions: Record<string, readonly string[]> = {};
  const hazard: Fact[] = [];
  const whole = new Set<string>();
  for (const details of options.details ?? answerDetails(answer, options)) {
    const { part, setup, setting } = details;
    if (setup === null) continue;
    const { id, name } = part.part;
    cautions[id] = details.cautions;
    for (const line of details.cautions) whole.add(line);
    hazard.push(...fumeFacts(details));
    if (details.evidence !== null) evidence[id] = details.evidence;
    if (setting === null) continue;
    hazard.unshift(...beamFacts(`${name}, ${setup.name}`, setting));
    zones.push({ title: `${name}, ${setup.name}`, hazards: setting.hazards });
    if (setting.job === null) continue;
    jobs[id] = setting.job;
    costs[id] = costOf(setting.job);
  }
  if (hazard.length > 0) hazard.push(airflowFact());
  if (whole.size === 0) whole.add("Laser work is class 4 work: local law and the laser safety officer decide.");
  return buildReport({
    answer,
    costs,
    jobs,
    evidence,
    hazardZones: zones,
    cautions: [...whole],
    partCautions: cautions,
    hazard,
    ...(options.graded === undefined ? {} : { graded: options.graded }),
    dateText: options.dateText,
    documentId: options.documentId,
    ...(options.revision === undefined ? {} : { revision: options.revision }),
    approver: options.approver,
  });
}

/** The short form of the cost for the first page. */
function costOf({ cost, currency, hours, basis }: PartJob): PartCost {
  const { low, middle, high } = cost.perArea;
  return { low, median: middle, high, currency, hours: hours.middle, basis };
}

function beamFacts(where: string, { hazards, eyewear }: SettingDetails): Fact[] {
  const sources = hazards.sources.join(", ");
  const facts: Fact[] = hazards.distances.map((d) => ({
    name: `${where}: hazard distance, ${d.path}`,
    value: `eye ${formatQuantity(d.eyeShown, "m", 3)}, skin ${formatQuantity(d.skinShown, "m", 3)}`,
    note: `${hazards.note} Sources: ${sources}.`,
  }));
  facts.push({
    name: `${where}: eyewear at ${formatQuantity(EYEWEAR_DISTANCE, "m", 2)} from the focus`,
    value: eyewear.marking,
    note: eyewear.notes.join(" "),
  });
  return facts;
}

function fumeFacts({ part, fume }: PartDetails): Fact[] {
  return fume.map((f) => ({
    name: `${part.part.name}: ${f.name} (${f.action})`,
    value: f.substances.join(", "),
    note: [f.note, ...f.limits].filter((x) => x !== "").join("; "),
  }));
}
