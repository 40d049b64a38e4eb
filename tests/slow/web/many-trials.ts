import { completeSetting } from "#beam";
import {
  beliefToWire,
  type EnquiryFile,
  outcomeToWire,
  parseEnquiryFile,
  settingToWire,
  type TrialWire,
  trialToWire,
  type WindowWire,
} from "#contract";
import { setups } from "#library";
import { createRandom, type RandomStream } from "#numerics";
import type { Store, StoreTransaction } from "#store";
import type { LaserSetup, Outcome, PlannedPatch, Trial } from "#terms";

export interface ManySpec {
  /** trials in all; 500 */
  readonly trials: number;
  /** patches of each; 100 */
  readonly patches: number;
  /** enquiries that the trials are spread over; 200 */
  readonly enquiries: number;
  readonly seed: number;
}

export const usualMany: ManySpec = { trials: 500, patches: 100, enquiries: 200, seed: 20261125 };

const coats = [
  {
    name: "hatch covers",
    material: "aluminium-5083",
    layers: [
      ["polyurethane-topcoat", "white", 55],
      ["epoxy-primer", "mid", 40],
    ],
  },
  { name: "brackets", material: "steel-low-carbon", layers: [["red-rust", "natural", 60]] },
  { name: "moulds", material: "aluminium-6061", layers: [["rubber-residue", "natural", 25]] },
  { name: "frames", material: "steel-low-carbon", layers: [["powder-coat", "dark", 80]] },
  { name: "pipes", material: "stainless-316", layers: [["heat-tint", "natural", 0.2]] },
  { name: "beams", material: "steel-low-carbon", layers: [["mill-scale", "natural", 30]] },
  { name: "railings", material: "aluminium-1050", layers: [["alkyd", "mid", 70]] },
  {
    name: "doors",
    material: "steel-low-carbon",
    layers: [
      ["acrylic", "white", 45],
      ["zinc-rich-primer", "natural", 50],
    ],
  },
  { name: "busbars", material: "copper", layers: [["oil-film", "natural", 4]] },
  { name: "gates", material: "steel-low-carbon", layers: [["unknown", "unknown", null]] },
  { name: "housings", material: "cast-iron", layers: [["epoxy-primer", "mid", 50]] },
] as const;
const yards = [
  "Northern yard",
  "Harbour works",
  "Mill lane",
  "Tram depot",
  "Lock gate",
  "Quarry bridge",
  "Old foundry",
];
const pick = <T>(list: readonly T[], random: RandomStream): T => list[random.integer(list.length)]!;

/** An invented enquiry of one to three parts. */
function enquiryOf(index: number, random: RandomStream): EnquiryFile {
  const parts = Array.from({ length: 1 + random.integer(3) }, (_, i) => {
    const coat = pick(coats, random);
    return {
      id: `part-${i + 1}`,
      name: coat.name,
      material: coat.material,
      thickness_mm: 2 + random.integer(10),
      area_m2: 0.5 + random.integer(20) / 4,
      layers: coat.layers.map(([kind, colour, thickness]) => ({
        kind,
        colour,
        thickness_um: thickness === null ? "unknown" : Math.round(thickness * (60 + random.integer(80))) / 100,
      })),
      lead: "no" as const,
      chromate: "no" as const,
    };
  });
  return parseEnquiryFile({
    id: `job-${index}`,
    title: `${pick(yards, random)} ${1000 + index}`,
    customer: `Customer ${1 + random.integer(60)}`,
    invented: true,
    parts,
  });
}

/** A square coupon of patches at settings about the middling one of the set-up. */
function trialOf(id: string, enquiry: EnquiryFile, setup: LaserSetup, spec: ManySpec, random: RandomStream): Trial {
  const side = Math.ceil(Math.sqrt(spec.patches));
  const middling = completeSetting(setup, {});
  const patches = Array.from({ length: spec.patches }, (_, i): PlannedPatch => {
    const setting = {
      ...middling,
      level: 0.4 + 0.6 * random.next(),
      speed: middling.speed * (0.4 + 0.6 * random.next()),
      passes: 1 + random.integer(3),
    };
    return {
      patch: i + 1,
      coupon: 1,
      x: 5e-3 + 15e-3 * (i % side),
      y: 5e-3 + 15e-3 * Math.floor(i / side),
      width: 12e-3,
      height: 12e-3,
      role: "test",
      setting,
      runOrder: i + 1,
      replicateOf: null,
      predictedClean: random.next(),
      predictedUndamaged: random.next(),
    };
  });
  const width = 10e-3 + 15e-3 * side;
  return {
    id,
    enquiryId: enquiry.id,
    partId: pick(enquiry.parts, random).id ?? "part-1",
    setupId: setup.id,
    design: "latin-hypercube",
    seed: 1,
    coupons: [{ coupon: 1, width, height: width, label: id }],
    patches,
    reasons: ["invented for a measurement of the pages"],
    modelVersion: "invented",
  };
}

/** Residue falls and the metal suffers as the dose of a patch grows; the rest is luck. */
function outcomesOf(trial: Trial, random: RandomStream): Outcome[] {
  return trial.patches.map((p) => {
    const dose = Math.log(
      (p.setting!.level * p.setting!.passes) / (p.setting!.speed / trial.patches[0]!.setting!.speed),
    );
    const residue = 1 / (1 + Math.exp(6 * (dose + 0.2 * random.normal())));
    const harm = 1.2 * dose + 0.5 * random.normal();
    return {
      trialId: trial.id,
      patch: p.patch,
      residueFraction: Math.round(1000 * residue) / 1000,
      residueUncertainty: null,
      metalCondition: harm > 1.6 ? 3 : harm > 1.1 ? 2 : harm > 0.6 ? 1 : 0,
      lightness: null,
      roughnessBefore: null,
      roughnessAfter: null,
      thicknessBefore: null,
      thicknessAfter: null,
      temperature: null,
      tests: [],
      grader: "invented",
      note: "",
    };
  });
}

function windowOf(trial: Trial, found: boolean): WindowWire {
  const setting = settingToWire(trial.patches[0]!.setting!);
  const share = { probabilityClean: 0.93, probabilityUndamaged: 0.94, probabilityBoth: 0.9 };
  return {
    laser: trial.setupId,
    trial: trial.id,
    recommended: found
      ? {
          setting,
          ...share,
          probabilityBothLow: 0.8,
          probabilityBothHigh: 0.95,
          margin: { logDose: 0.2, power_percent: 12, nearestEdge: "clean" },
          areaRate_m2_per_h: 2,
          repeats: 3,
          repeatsGood: 3,
          proven: true,
          words: [],
        }
      : null,
    next: [],
    map: null,
    diagnostics: {
      patches: trial.patches.length,
      clean: 1,
      damaged: 1,
      rHat: null,
      effectiveSampleSize: null,
      brierClean: null,
      brierUndamaged: null,
      priorMatters: "",
    },
    words: [],
    caveats: [],
    cautions: [],
    modelVersion: "invented",
  };
}

interface Burned {
  readonly trial: Trial;
  readonly wire: TrialWire;
  readonly outcomes: readonly Outcome[];
}

/** A whole answer with its trials in it, as large as one that was worked out. */
async function keepAnswer(tx: StoreTransaction, enquiry: EnquiryFile, burned: readonly Burned[]): Promise<void> {
  const result = {
    enquiry: enquiry.id,
    title: enquiry.title,
    invented: true,
    parts: [
      {
        part: "part-1",
        name: "",
        material: "",
        unknowns: [],
        assumptions: [],
        triage: { verdict: "likely", reasons: [] },
        verdicts: [],
        comparison: null,
        advice: [],
        trials: burned.map(({ trial, wire, outcomes }, i) => ({
          trial: wire,
          outcomes: outcomes.map(outcomeToWire),
          window: windowOf(trial, i % 3 !== 2),
        })),
      },
    ],
    seed: 1,
    drawCount: 8,
    modelVersion: "invented",
  };
  const about = { enquiry: enquiry.id, enquiryVersion: 1, modelVersion: "invented", inputs: {} };
  await tx.addAnswer({ ...about, shape: "answer", result });
}

/**
 * Fills a store through its own interface: invented enquiries, trials with every patch graded, an answer for every
 * third enquiry and a belief for every fourth trial. The same spec fills it the same way.
 */
export async function fillMany(store: Store, spec: ManySpec = usualMany): Promise<void> {
  const random = createRandom(spec.seed);
  await store.write(async (tx) => {
    const enquiries: EnquiryFile[] = [];
    for (let i = 0; i < spec.enquiries; i += 1) {
      const enquiry = enquiryOf(i, random.substream(i));
      await tx.put("enquiry", enquiry);
      enquiries.push(enquiry);
    }
    const burned = enquiries.map((): Burned[] => []);
    for (let i = 0; i < spec.trials; i += 1) {
      const stream = random.substream(1_000_000 + i);
      const at = i % spec.enquiries;
      const setup = pick(setups, stream);
      const trial = trialOf(`trial-${i}`, enquiries[at]!, setup, spec, stream);
      const wire = trialToWire(trial, ["Class 4 laser. Wear eyewear that the laser safety officer names."]);
      const outcomes = outcomesOf(trial, stream);
      await tx.put("trial", wire);
      await tx.addOutcomes(trial.id, outcomes.map(outcomeToWire));
      burned[at]!.push({ trial, wire, outcomes });
      if (i % 4 === 0) await tx.put("belief", beliefOf(trial, i % 8 === 0));
    }
    for (const [i, enquiry] of enquiries.entries()) if (i % 3 === 0) await keepAnswer(tx, enquiry, burned[i]!);
  });
}

function beliefOf(trial: Trial, found: boolean) {
  return beliefToWire({
    id: trial.id,
    trialId: trial.id,
    enquiryId: trial.enquiryId,
    partId: trial.partId,
    setupId: trial.setupId,
    metalId: "steel-low-carbon",
    layers: [],
    lessons: [],
    shifts: [],
    recommended: found ? { setting: trial.patches[1]!.setting!, proven: false } : null,
    patches: trial.patches.length,
    modelVersion: "invented",
  });
}
