import {
  type EnquiryFile,
  type OutcomeWire,
  outcomeToWire,
  parseEnquiryFile,
  type TrialWire,
  trialToWire,
} from "#contract";
import { trial } from "../contract/shelves.ts";

export const enquiry = (title: string): EnquiryFile =>
  parseEnquiryFile({
    title,
    parts: [{ material: "aluminium-5083", layers: [{ kind: "epoxy-primer", thickness_um: 40 }] }],
  });

export const trialRecord: TrialWire = trialToWire(trial, ["wear eyewear that the safety officer names"]);

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
