import { readFileSync } from "node:fs";
import { parseOutcomesCsv, parseTrialWire, type TrialWire, trialFromWire } from "#contract";
import { setup as setupById } from "#library";
import type { LaserSetup, Outcome, Trial } from "#terms";

const examples = new URL("../../examples/", import.meta.url).pathname;
const text = (name: string): string => readFileSync(`${examples}${name}`, "utf8");

export const wire: TrialWire = parseTrialWire(JSON.parse(text("brackets.pulsed.trial.json")));
export const trial: Trial = trialFromWire(wire);
export const setup: LaserSetup = setupById(trial.setupId);
export const outcomesCsv: string = text("brackets.pulsed.outcomes.csv");
export const outcomes: readonly Outcome[] = parseOutcomesCsv(outcomesCsv, trial).accepted;
export const enquiryText: string = text("enquiry.json");
