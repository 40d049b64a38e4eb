import { beamState } from "#beam";
import type { Shop } from "#contract";
import { setup as setupById } from "#library";
import {
  buildReport,
  choose,
  type EvidenceComparison,
  type Fact,
  type GradedFigure,
  type HazardZone,
  type PartCost,
  type PartJob,
  type ReportModel,
} from "#report";
import { eyewear, type EyewearAdvice, fumeFlags, type HazardDistances, hazardDistances } from "#safety";
import type { EnquiryAnswer, LaserSetup, PartAnswer, Setting, SiteLimits } from "#terms";
import { formatQuantity } from "#units";
import { layerKindsOf, partCautions } from "./cautions-of.ts";
import { compareEvidence, type SideFigures } from "./compare-evidence.ts";
import { partJob } from "./part-job.ts";

export interface ReportOptions {
  readonly setups: readonly LaserSetup[];
  /** ISO 8601 day, handed in */
  readonly dateText: string;
  readonly documentId: string;
  readonly approver: string | null;
  /** null: neither time nor cost is worked out and the report says so */
  readonly shop: Shop | null;
  /** coupons graded from photographs */
  readonly graded?: readonly GradedFigure[];
}

/** m, where eyewear and skin are thought to be: an arm's length from the work. */
const EYEWEAR_DISTANCE = 0.5;

/** The report of an answered enquiry: recommendation, evidence, cost, hazards and cautions joined. */
export function reportAnswer(answer: EnquiryAnswer, options: ReportOptions): ReportModel {
  const costs: Record<string, PartCost> = {};
  const jobs: Record<string, PartJob> = {};
  const evidence: Record<string, EvidenceComparison> = {};
  const zones: HazardZone[] = [];
  const { site } = answer.enquiry;
  const { shop } = options;
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
    if (part.trials.some(({ outcomes }) => outcomes.length > 0))
      evidence[part.part.id] = compareEvidence(
        part,
        (id) => setupOf(options.setups, id),
        (of, setting) => sideFigures(part, site, of, setting, shop),
      );
    if (chosen.setting === null) continue;
    hazard.unshift(...beamFacts(part, setup, chosen.setting));
    zones.push({ title: `${part.part.name}, ${setup.name}`, hazards: hazardsOf(setup, chosen.setting) });
    if (shop === null) continue;
    const job = partJob(part.part, site, setup, chosen.setting, shop);
    jobs[part.part.id] = job;
    costs[part.part.id] = costOf(job);
  }
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

/** The short form of the cost for the first page. */
function costOf({ cost, currency, hours, basis }: PartJob): PartCost {
  const { low, middle, high } = cost.perArea;
  return { low, median: middle, high, currency, hours: hours.middle, basis };
}

const hazardsOf = (setup: LaserSetup, setting: Setting): HazardDistances =>
  hazardDistances(setup, setting, beamState(setup, setting));

/** What a comparison by evidence shows of one setting besides its window. */
function sideFigures(
  part: PartAnswer,
  site: SiteLimits,
  setup: LaserSetup,
  setting: Setting,
  shop: Shop | null,
): SideFigures {
  const job = shop === null ? null : partJob(part.part, site, setup, setting, shop);
  return {
    cost: job && { ...pick(job.cost.perArea), currency: job.currency },
    hazard: Math.max(...hazardsOf(setup, setting).distances.map((d) => d.eyeShown)),
    eyewear: eyewearAt(setup, setting).marking,
  };
}

const pick = ({ low, middle, high }: { low: number; middle: number; high: number }) => ({ low, middle, high });

/** Eyewear for the diffuse and stray beam at arm's length; the spot there is the beam on its way back out. */
export function eyewearAt(setup: LaserSetup, setting: Setting): EyewearAdvice {
  const beam = beamState(setup, setting);
  const lens = setup.lenses.find((l) => l.id === setting.lens) ?? setup.lenses[0];
  const diameter = Math.max(1e-3, (setup.beamDiameterOnLens / lens.focalLength) * EYEWEAR_DISTANCE) / Math.SQRT2;
  return eyewear({
    wavelength: setup.wavelength,
    meanPower: beam.meanPower,
    diameter,
    pulseEnergy: beam.onTime === null ? null : (beam.pulseEnergy ?? beam.peakPower * beam.onTime),
    onTime: beam.onTime,
    frequency: beam.onTime === null ? null : setting.frequency,
  });
}

function beamFacts(part: PartAnswer, setup: LaserSetup, setting: Setting): Fact[] {
  const hazards = hazardsOf(setup, setting);
  const sources = hazards.sources.join(", ");
  const where = `${part.part.name}, ${setup.name}`;
  const facts: Fact[] = hazards.distances.map((d) => ({
    name: `${where}: hazard distance, ${d.path}`,
    value: `eye ${formatQuantity(d.eyeShown, "m", 3)}, skin ${formatQuantity(d.skinShown, "m", 3)}`,
    note: `${hazards.note} Sources: ${sources}.`,
  }));
  const advice = eyewearAt(setup, setting);
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
