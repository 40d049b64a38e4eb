import { beamState } from "#beam";
import type { Shop } from "#contract";
import { setup as setupById } from "#library";
import { type Chosen, choose, type EvidenceComparison, type EvidenceSide, type PartJob } from "#report";
import { eyewear, type EyewearAdvice, type FumeFlag, fumeFlags, type HazardDistances, hazardDistances } from "#safety";
import type { EnquiryAnswer, LaserSetup, PartAnswer, PartEnquiry, Setting, SiteLimits } from "#terms";
import { layerKindsOf, partCautions } from "./cautions-of.ts";
import { compareEvidence } from "./compare-evidence.ts";
import { partJob } from "./part-job.ts";

/** m, where eyewear and skin are thought to be: an arm's length from the work. */
export const EYEWEAR_DISTANCE = 0.5;

/** What goes along with one setting on one part: what can hurt, and what the order takes and costs. */
export interface SettingDetails {
  readonly cautions: readonly string[];
  readonly fume: readonly FumeFlag[];
  readonly hazards: HazardDistances;
  readonly eyewear: EyewearAdvice;
  /** null where no shop figures were given */
  readonly job: PartJob | null;
}

/** What an answer says of one part besides its verdicts and windows. */
export interface PartDetails {
  readonly part: PartAnswer;
  readonly chosen: Chosen;
  /** the set-up of the setting, or the first in the list where none is recommended; null where there is none at all */
  readonly setup: LaserSetup | null;
  /** null where no setting is recommended */
  readonly setting: SettingDetails | null;
  readonly cautions: readonly string[];
  readonly fume: readonly FumeFlag[];
  /** null where no patch was burned */
  readonly evidence: EvidenceComparison | null;
  /** cautions of every setting that the comparison shows */
  readonly evidenceCautions: readonly string[];
}

export interface DetailsOptions {
  readonly setups: readonly LaserSetup[];
  /** null: neither time nor cost is worked out */
  readonly shop: Shop | null;
}

/**
 * Hazard distances, eyewear, fume, cautions, and with shop figures the order, of one setting on one part.
 * Errors: InvalidInput of the figures and of a setting that the set-up cannot run. Sources: those of #safety and #cost.
 */
export function settingDetails(
  part: PartEnquiry,
  site: SiteLimits,
  setup: LaserSetup,
  setting: Setting,
  shop: Shop | null,
): SettingDetails {
  return {
    cautions: partCautions(part, setup, setting),
    fume: fumeOf(part),
    hazards: hazardsOf(setup, setting),
    eyewear: eyewearAt(setup, setting),
    job: shop === null ? null : partJob(part, site, setup, setting, shop),
  };
}

/** Delivery, time, cost, hazards, cautions and the comparison by what was burned, for each part of an answer. */
export function answerDetails(answer: EnquiryAnswer, options: DetailsOptions): PartDetails[] {
  return answer.parts.map((part) => detailsOf(part, answer.enquiry.site, options));
}

function detailsOf(part: PartAnswer, site: SiteLimits, { setups, shop }: DetailsOptions): PartDetails {
  const setupOf = (id: string): LaserSetup => setups.find((s) => s.id === id) ?? setupById(id);
  const chosen = choose(part);
  const lead = chosen.setupId ?? part.verdicts[0]?.setupId ?? null;
  const setup = lead === null ? null : setupOf(lead);
  const burned = part.trials.some(({ outcomes }) => outcomes.length > 0);
  const evidence = burned
    ? compareEvidence(part, setupOf, (of, setting) => sideFigures(part, site, of, setting, shop))
    : null;
  return {
    part,
    chosen,
    setup,
    setting:
      setup === null || chosen.setting === null ? null : settingDetails(part.part, site, setup, chosen.setting, shop),
    cautions: setup === null ? [] : partCautions(part.part, setup, chosen.setting),
    fume: fumeOf(part.part),
    evidence,
    evidenceCautions: evidence === null ? [] : cautionsOfSides(part, evidence, setupOf),
  };
}

/** Each caution once, those of the pulsed setting first. */
function cautionsOfSides(
  part: PartAnswer,
  { pulsed, continuous }: EvidenceComparison,
  setupOf: (id: string) => LaserSetup,
): string[] {
  const lines = [pulsed, continuous].flatMap((side) => {
    const run = part.trials.find(({ trial }) => trial.id === side?.trialId);
    if (run === undefined) return [];
    return partCautions(part.part, setupOf(run.trial.setupId), side?.recommendation?.setting ?? null);
  });
  return [...new Set(lines)];
}

const hazardsOf = (setup: LaserSetup, setting: Setting): HazardDistances =>
  hazardDistances(setup, setting, beamState(setup, setting));

function fumeOf(part: PartEnquiry): readonly FumeFlag[] {
  const metal = part.mixture[0]?.stack.metal ?? null;
  return fumeFlags(layerKindsOf(part), metal, { lead: part.lead, chromate: part.chromate });
}

/** What a comparison by evidence shows of one setting besides its window. */
function sideFigures(
  part: PartAnswer,
  site: SiteLimits,
  setup: LaserSetup,
  setting: Setting,
  shop: Shop | null,
): { cost: EvidenceSide["cost"]; hazard: number; eyewear: string } {
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
