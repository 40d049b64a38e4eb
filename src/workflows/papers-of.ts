import { beamState, lensOf, roundToMachine } from "#beam";
import { exampleShop, type Shop } from "#contract";
import {
  buildCommissioningSheet,
  buildOffer,
  buildProcedureSheet,
  choose,
  type Chosen,
  footingOf,
  type Language,
  type OfferInput,
  type PaperHead,
  type PartJob,
  type Sheet,
  type VerificationPatch,
} from "#report";
import { setup as setupById } from "#library";
import type { Enquiry, EnquiryAnswer, LaserSetup, PartAnswer, PartEnquiry, Setting } from "#terms";
import { formatNumber, formatQuantity } from "#units";
import { repeatsToProve } from "#window";
import { partCautions } from "./cautions-of.ts";
import { partJob } from "./part-job.ts";
import { eyewearAt } from "./part-details.ts";

export interface PapersOptions {
  readonly setups: readonly LaserSetup[];
  readonly language: Language;
  readonly revision: string;
  readonly dateText: string;
  readonly approver: string | null;
  /** day until which the offer holds, as it is to be printed; null leaves it open */
  readonly validUntil: string | null;
  readonly shop?: Shop;
}

/** The papers of one part; procedure and commissioning only where a setting is recommended. */
export interface PartPapers {
  readonly partId: string;
  readonly procedure: Sheet<"procedure"> | null;
  readonly commissioning: Sheet<"commissioning"> | null;
  readonly offer: Sheet<"offer">;
  /** what is missing and why, one sentence each */
  readonly words: readonly string[];
}

/** Share of the power at which a last patch must leave more residue, so that a drifted beam shows (own choice). */
const WEAKER = 0.6;
const OPERATORS = 6;

/** Papers that leave the house for each part of an answer. Errors: InvalidInput for texts that are none. */
export function papersOf(answer: EnquiryAnswer, options: PapersOptions): PartPapers[] {
  return answer.parts.map((part) => papersOfPart(answer, part, options));
}

function papersOfPart(answer: EnquiryAnswer, part: PartAnswer, options: PapersOptions): PartPapers {
  const { enquiry } = answer;
  const chosen = choose(part);
  const head = (letter: string): PaperHead => ({
    documentId: `${enquiry.id}-${part.part.id}-${letter}`.slice(0, 60),
    revision: options.revision,
    dateText: options.dateText,
    approver: options.approver,
    enquiryId: enquiry.id,
    customer: enquiry.customer,
    invented: enquiry.invented,
    modelVersion: answer.modelVersion,
  });
  const setup = chosen.setupId === null ? null : setupOf(options, chosen.setupId);
  const job = setup === null || chosen.setting === null ? null : jobOf(enquiry, part, setup, chosen.setting, options);
  const cautions = cautionsFor(part, setup, chosen.setting);
  const offer = buildOffer(
    { ...head("offer"), ...offerOf(enquiry, part, chosen, setup, job), validUntil: options.validUntil, cautions },
    options.language,
  );
  if (setup === null || chosen.setting === null)
    return {
      partId: part.part.id,
      procedure: null,
      commissioning: null,
      offer,
      words: [`${part.part.name}: no setting is recommended, so there is no procedure and no commissioning sheet.`],
    };
  const common = {
    part: part.part,
    setup,
    setting: roundToMachine(setup, chosen.setting),
    footing: footingOf(chosen),
    cautions,
  };
  const lens = lensOf(setup, chosen.setting.lens);
  const hand = job?.rate.delivery === "hand";
  const procedure = buildProcedureSheet(
    {
      ...head("procedure"),
      ...common,
      delivery: job?.rate.delivery ?? "scanner",
      standOff: null,
      scan: {
        pattern: hand ? "hand-line" : "both-ways",
        lineLength: Math.min(lens.fieldSide, Math.sqrt(part.part.area)),
        note: `lens of ${formatQuantity(lens.focalLength, "mm", 3)} focal length`,
      },
      eyewear: eyewearAt(setup, chosen.setting).marking,
      respiratory: null,
      otherPpe: [],
      furtherStops: [],
      furtherChecks: [],
    },
    options.language,
  );
  const commissioning = buildCommissioningSheet(
    {
      ...head("commissioning"),
      ...common,
      powerTolerance: 0.05,
      spotTolerance: 0.05,
      verification: verificationOf(setup, common.setting),
      rechecks: [],
      operatorLines: OPERATORS,
    },
    options.language,
  );
  return { partId: part.part.id, procedure, commissioning, offer, words: [] };
}

const setupOf = ({ setups }: PapersOptions, id: string): LaserSetup => setups.find((s) => s.id === id) ?? setupById(id);

const jobOf = (
  enquiry: Enquiry,
  part: PartAnswer,
  setup: LaserSetup,
  setting: Setting,
  { shop }: PapersOptions,
): PartJob => partJob(part.part, enquiry.site, setup, setting, shop ?? exampleShop());

function cautionsFor(part: PartAnswer, setup: LaserSetup | null, setting: Setting | null): string[] {
  const lead = setup ?? (part.verdicts[0] ? setupById(part.verdicts[0].setupId) : null);
  return lead === null
    ? ["Laser work is class 4 work: local law and the laser safety officer decide."]
    : partCautions(part.part, lead, setting);
}

/** Three patches at the setting, and one weaker that must leave residue: the edge is where it was. */
function verificationOf(setup: LaserSetup, setting: Setting): VerificationPatch[] {
  return [
    { label: `V1 to V${repeatsToProve}`, setting, mustShow: "clean and undamaged" },
    {
      label: `V${repeatsToProve + 1}`,
      setting: roundToMachine(setup, { ...setting, level: WEAKER * setting.level }),
      mustShow: "more residue than the patches before: the edge of cleaning lies between",
    },
  ];
}

type OfferPart = Pick<OfferInput, "title" | "scope" | "assumptions" | "exclusions" | "options" | "price">;

function offerOf(
  enquiry: Enquiry,
  { part, triage }: PartAnswer,
  chosen: Chosen,
  setup: LaserSetup | null,
  job: PartJob | null,
): OfferPart {
  const layers = [...new Set(part.mixture.flatMap(({ stack }) => stack.layers.map(({ kind }) => kind.name)))].join(
    ", ",
  );
  const scope =
    setup === null
      ? []
      : [
          `${layers} taken off ${part.count} × ${part.name}, ${formatQuantity(part.area, "m2")} each, to at most ${formatNumber(100 * part.acceptance.residueMax, 2)} % residue`,
          `Laser: ${setup.name}, ${job?.rate.delivery ?? "delivery open"}, ${formatQuantity(beamState(setup, chosen.setting!).meanPower, "W", 3)} at the work`,
        ];
  return {
    title: `${part.name}, ${enquiry.title}`,
    scope,
    assumptions: [...assumptionsOf(part), chosen.words, ...(triage.verdict === "declined" ? triage.reasons : [])],
    exclusions: exclusionsOf(part),
    options: [],
    price: job === null ? null : priceOf(job, part),
  };
}

const assumptionsOf = (part: PartEnquiry): string[] => [
  ...(part.assumptions ?? []),
  ...part.unknowns.map((what) => `Not known and to be settled first: ${what}.`),
];

/** What no price here holds, said rather than left to be found out. */
function exclusionsOf(part: PartEnquiry): string[] {
  const tests = part.acceptance.tests.map((t) => `${t.kind} (${t.method})`);
  return [
    "Recoating, masking and disposal of the filter dust",
    "Travel, set-down of the machine and the customer's own handling",
    ...(tests.length === 0 ? [] : [`Acceptance tests by a laboratory: ${tests.join(", ")}`]),
  ];
}

function priceOf({ cost, currency, basis }: PartJob, part: PartEnquiry): OfferInput["price"] {
  const { low, middle, high } = cost.total;
  return {
    low,
    high: Math.max(high, low * (1 + 1e-6)),
    middle,
    currency,
    per: `cost of the order of ${part.count} pieces, without profit and tax`,
    basis,
  };
}
