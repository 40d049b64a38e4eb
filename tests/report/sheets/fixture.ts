import { beamState, defaultSetting, roundToMachine } from "#beam";
import { layerKinds, metal, setup as setupOf } from "#library";
import type { CommissioningInput, OfferInput, PaperHead, ProcedureInput, RunSheetInput } from "#report";
import { cautionsFor } from "#safety";
import type { AcceptanceTestKind, PartEnquiry, PlannedPatch, Stack, Trial } from "#terms";
import { hatchCovers } from "../fixture-parts.ts";

/** All of this is invented; the figures are round and no source is claimed for them. */
export const head: PaperHead = {
  documentId: "E-001-P1",
  revision: "B",
  dateText: "2 November 2026",
  approver: null,
  enquiryId: "E-001",
  customer: "Invented ferry yard",
  invented: true,
  modelVersion: "0.1.0",
};

export const setup = setupOf("pulsed-200");
export const continuousSetup = setupOf("continuous-1500");
export const setting = roundToMachine(setup, { ...defaultSetting(setup), level: 0.9, passes: 2 });
export const continuousSetting = roundToMachine(continuousSetup, {
  ...defaultSetting(continuousSetup),
  defocus: 2e-3,
  duty: 0.5,
  frequency: 5000,
});

const layers = hatchCovers.mixture[0]!.stack.layers.map(({ kind }) => kind);
export const cautions = cautionsFor({
  setup,
  beam: beamState(setup, setting),
  layers,
  metal: metal("aluminium-5083"),
  lead: "no",
  chromate: "unknown",
});

export const procedureInput: ProcedureInput = {
  ...head,
  part: hatchCovers,
  setup,
  setting,
  footing: { kind: "proven", trialId: "T-014", repeats: { burned: 5, good: 5 } },
  delivery: "scanner",
  standOff: 0.172,
  scan: { pattern: "both-ways", lineLength: 0.06, note: "begin at the rim, fields overlap by 2 mm" },
  eyewear: "D LB6 + R LB7, 1064 nm",
  respiratory: "half mask P3",
  otherPpe: ["nitrile gloves when the filter is changed"],
  cautions,
  furtherStops: [],
  furtherChecks: [],
};

/** Every test there is, with the standards that are usual for it and limits as customers write them. */
const everyTest: readonly (readonly [AcceptanceTestKind, string, string])[] = [
  ["profile", "ISO 8503-5", "40 µm to 75 µm, no sharp peaks"],
  ["salts", "ISO 8502-6 and ISO 8502-9", "at most 20 mg/m² on each of three places"],
  ["dust", "ISO 8502-3", "at most class 2, size 2"],
  ["water-break", "ASTM F22", "no break within 30 s"],
  ["pull-off", "ISO 4624", "at least 5 MPa after recoating"],
  ["cross-cut", "ISO 2409", "class 0 or 1"],
  ["contact-resistance", "four-wire resistance", "at most 50 µΩ"],
  ["hardness", "ISO 6507-1", "within 5 HV of the untouched metal"],
  ["weld-porosity", "ISO 17636-1 judged to ISO 5817", "level B"],
  ["dimension-loss", "micrometer before and after", "at most 5 µm"],
  ["flash-rust", "looked at after the hours stated", "none within 4 h indoors"],
];
const heavyStack = (turn: number): Stack => ({
  ...hatchCovers.mixture[0]!.stack,
  layers: layerKinds.slice(turn, turn + 4).map((kind) => ({
    kind,
    colour: "mid",
    thickness: { ...kind.usualThickness, low: 3.5e-5, value: 6e-5, high: 1.25e-4 },
    mustStay: false,
  })),
});

/** As much as a job may come to: five stacks, every test, every substance unknown, long names, further rules. */
export const longPart: PartEnquiry = {
  ...hatchCovers,
  name: "Hatch cover with hinge lugs, drain channel and riveted identification plate, port side",
  material: "aluminium 5083-H111, welded, with extruded 6061 stiffeners",
  mixture: [0, 1, 2, 3, 4].map((turn) => ({ stack: heavyStack(turn), weight: 0.3 - 0.05 * turn, assumption: "" })),
  faces: (["flat", "convex", "concave", "edge", "hole", "weld-bead"] as const).map((kind) => ({
    kind,
    radius: kind === "concave" ? 0.012 : null,
    note: "both sides of the cover",
  })),
  acceptance: {
    ...hatchCovers.acceptance,
    tests: everyTest.map(([kind, method, limit]) => ({ kind, method, limit, value: null, passed: null })),
  },
};

export const longProcedure: ProcedureInput = {
  ...procedureInput,
  part: longPart,
  eyewear: "1064 nm D LB6 + R LB7 + M LB7, goggles with side cover, over prescription glasses",
  respiratory: "powered hood TH3P with gas filter A2 where polyurethane or rubber is in the layers",
  otherPpe: ["nitrile gloves", "flame-resistant overall", "hearing protection", "closed shoes"],
  scan: { ...procedureInput.scan, note: "begin at the rim, fields overlap by 2 mm, finish at the drain channel" },
  cautions: cautionsFor({
    setup,
    beam: beamState(setup, setting),
    layers: layerKinds,
    metal: metal("aluminium-5083"),
    lead: "unknown",
    chromate: "unknown",
    cadmium: "unknown",
    asbestos: "unknown",
  }),
  furtherStops: ["The rivets of the identification plate change colour", "Water runs out of the drain channel"],
  furtherChecks: ["Identification plate masked with copper tape", "Drain channel blown out and dry"],
};

export const commissioningInput: CommissioningInput = {
  ...head,
  documentId: "E-001-C1",
  part: hatchCovers,
  setup,
  setting,
  footing: procedureInput.footing,
  powerTolerance: 0.05,
  spotTolerance: null,
  verification: [
    { label: "V1 to V3", setting, mustShow: "clean and undamaged" },
    {
      label: "V4",
      setting: roundToMachine(setup, { ...setting, level: 0.5 }),
      mustShow: "residue left: the edge is where it was",
    },
  ],
  rechecks: [],
  operatorLines: 4,
  cautions,
};

const places = [0.006, 0.0245, 0.043, 0.0615, 0.08, 0.0985];
const patches: PlannedPatch[] = [1, 2].flatMap((coupon) =>
  places.flatMap((x, column) =>
    [0.006, 0.0245].map((y, row): PlannedPatch => {
      const patch = 12 * (coupon - 1) + 2 * column + row + 1;
      const kept = patch === 24;
      const cleaned = patch === 23;
      const level = [0.35, 0.5, 0.65, 0.8, 0.9, 1][column]!;
      return {
        patch,
        coupon,
        x,
        y,
        width: 0.015,
        height: 0.015,
        role: kept ? "untouched" : cleaned ? "cleaned-reference" : "test",
        setting: kept || cleaned ? null : roundToMachine(setup, { ...setting, level, speed: 1.234 + 0.5 * row }),
        runOrder: kept ? 0 : ((patch * 5) % 23) + 1,
        wait: patch % 4 === 1 ? 12.5 : 0,
        replicateOf: null,
        predictedClean: null,
        predictedUndamaged: null,
      };
    }),
  ),
);

export const trial: Trial = {
  id: "T-014",
  enquiryId: "E-001",
  partId: "hatch-covers",
  setupId: setup.id,
  design: "grid around the predicted window",
  seed: 20,
  coupons: [
    { coupon: 1, width: 0.12, height: 0.045, label: "A" },
    { coupon: 2, width: 0.12, height: 0.045, label: "B" },
  ],
  patches,
  reasons: [],
  modelVersion: "0.1.0",
};

export const runInput: RunSheetInput = {
  ...head,
  documentId: "E-001-T1",
  trial,
  setup,
  partName: hatchCovers.name,
  acceptance: hatchCovers.acceptance,
  cautions,
};

export const offerInput: OfferInput = {
  ...head,
  documentId: "E-001-O1",
  title: "Cleaning of 24 hatch covers",
  scope: ["Paint taken off 24 hatch covers, 1.8 m² each, at the yard", "First article with its readings"],
  assumptions: ["Coating at most 140 µm, no lead, chromate tested before", "Covers come free of oil and dry"],
  exclusions: ["Repainting", "Disposal of the filter dust"],
  options: [
    {
      name: "rims by hand",
      words: "Inner rims of 12 mm radius, hand held",
      price: {
        low: 812,
        high: 1287,
        middle: null,
        currency: "EUR",
        per: "for the order",
        basis: ["8 to 12 minutes a cover"],
      },
    },
    { name: "report of salts", words: "Soluble salts on three places a cover", price: null },
  ],
  validUntil: "31 January 2027",
  price: {
    low: 8143,
    middle: 9871,
    high: 12456,
    currency: "EUR",
    per: "for the order of 24 pieces, without tax",
    basis: ["Rate 0.15 to 0.22 m²/h from trial T-014", "Labour 58 EUR/h, invented", "Handling 10 minutes a cover"],
  },
  cautions,
};
