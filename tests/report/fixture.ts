import type { EnquiryAnswer, PartAnswer } from "#terms";
import type { ReportInput } from "#report";
import { brackets, hatchCovers, plinth } from "./fixture-parts.ts";
import { outcomes, trial, windowResult } from "./fixture-trial.ts";
import { verdicts, verdictsWithoutDamage } from "./fixture-verdicts.ts";

const [pulsed, , , continuous] = verdicts;

const proven: PartAnswer = {
  part: hatchCovers,
  triage: { verdict: "likely", reasons: ["Both layers come off well below the fluence at which 5083 changes."] },
  verdicts,
  comparison: {
    equalPower: {
      meanPower: 180,
      pulsed: pulsed!,
      continuous: null,
      sentence: "At 180 W pulsed cleans; the continuous beam does not reach the removal edge at any speed.",
    },
    eachAtBest: {
      pulsed: pulsed!,
      continuous: continuous!,
      sentence: "Pulsed leaves the metal unchanged; continuous is faster but its gap is narrow.",
    },
    equal: ["stack and thickness", "residue limit"],
    unequal: ["spot 80 µm against 400 µm", "passes 2 against 1"],
  },
  advice: [
    {
      measurement: "layer thickness gauge (ISO 2808)",
      spreadRemoved: 0.46,
      why: "Thickness sets how many passes are needed.",
    },
  ],
  trials: [{ trial, outcomes, window: windowResult }],
};

const predicted: PartAnswer = {
  part: brackets,
  triage: {
    verdict: "trial needed",
    reasons: ["Layer kind and thickness are unknown.", "Lead content is unknown: test before any stripping."],
  },
  verdicts: verdictsWithoutDamage,
  comparison: null,
  advice: [],
  trials: [],
};

const declined: PartAnswer = {
  part: plinth,
  triage: { verdict: "declined", reasons: ["Stone is out of scope: this tool answers for metal only."] },
  verdicts: [],
  comparison: null,
  advice: [],
  trials: [],
};

export const answer: EnquiryAnswer = {
  enquiry: {
    id: "E-001",
    title: "Island ferry yard: hatch covers and brackets",
    customer: "Invented ferry yard",
    invented: true,
    site: {
      deliveries: ["scanner", "hand"],
      electricalPowerMax: 11000,
      laserPowerMax: null,
      enclosed: true,
      note: "Work in the old paint hall.",
    },
    parts: [hatchCovers, brackets, plinth],
    note: "",
  },
  parts: [proven, predicted, declined],
  seed: 7,
  drawCount: 64,
  modelVersion: "0.1.0",
};

export const reportInput: ReportInput = {
  answer,
  citations: {
    "invented-optics": "Invented handbook of layer optics, table 3",
    "invented-heat": "Invented collection of metal properties",
  },
  costs: {
    "hatch-covers": {
      low: 38,
      median: 46,
      high: 61,
      currency: "EUR",
      hours: 236,
      basis: ["labour 58 EUR/h", "one shift a day"],
    },
  },
  cautions: [
    "Class 4 laser: only in a controlled area that the laser safety officer has released; local law decides.",
    "Polyurethane may give off isocyanates and hydrogen cyanide: capture at the source, filter class as the fume expert states.",
  ],
  partCautions: { brackets: ["Lead content unknown: test before any stripping."] },
  hazard: [
    { name: "nominal hazard distance, eye, direct beam", value: "1,420 m", note: "Directive 2006/25/EC, 10 s" },
    { name: "eyewear", value: "D LB6 + I LB7", note: "EN 207; ISO 19818-1 replaces it" },
  ],
  dateText: "2 November 2026",
  documentId: "E-001-R1",
  approver: null,
};
