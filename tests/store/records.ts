import {
  type EnquiryFile,
  type OutcomeWire,
  outcomeToWire,
  parseEnquiryFile,
  type TrialWire,
  trialToWire,
} from "#contract";
import type { Belief } from "#terms";
import { trial } from "../contract/shelves.ts";

export const enquiry = (title: string): EnquiryFile =>
  parseEnquiryFile({
    title,
    parts: [{ material: "aluminium-5083", layers: [{ kind: "epoxy-primer", thickness_um: 40 }] }],
  });

export const trialRecord: TrialWire = trialToWire(trial, ["wear eyewear that the safety officer names"]);

export const belief: Belief = {
  id: "b1",
  trialId: trial.id,
  enquiryId: "enquiry",
  partId: "part-1",
  setupId: "pulsed-100",
  metalId: "aluminium-5083",
  layers: [{ kindId: "epoxy-primer", colour: "white", thickness: 40e-6 }],
  lessons: [{ coordinate: "layer:epoxy-primer:white:absorption", mean: 0.75, spread: 0.5 }],
  shifts: [{ coordinate: "removal threshold", mean: -0.25, spread: 0.75 }],
  builtOn: ["earlier"],
  recommended: { setting: trial.patches.find((p) => p.setting !== null)!.setting!, proven: true },
  patches: 36,
  modelVersion: "m",
};

export const graded = (patch: number, residueFraction: number, grader = "A"): OutcomeWire =>
  outcomeToWire({
    trialId: trial.id,
    patch,
    residueFraction,
    residueUncertainty: null,
    metalCondition: 0,
    lightness: null,
    roughnessBefore: null,
    roughnessAfter: null,
    thicknessBefore: null,
    thicknessAfter: null,
    temperature: null,
    tests: [],
    grader,
    note: "",
  });
