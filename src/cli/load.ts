import {
  parseEnquiry,
  parseOutcomesCsv,
  parseTrialWire,
  type RecordedOutcomes,
  type TrialWire,
  trialFromWire,
} from "#contract";
import { outcomesFromXlsx, readBytes } from "#exchange";
import { createLibrary, type Library } from "#library";
import type { Belief, Enquiry, PartEnquiry, Trial } from "#terms";
import { invalid } from "#units";
import { createPartModel, type PartModel, triage } from "#workflows";
import { readJson, readText } from "./files.ts";

/** B of a workbook of outcomes. */
const BYTES_MAX = 40e6;

export interface PhysicsFlags {
  readonly enquiry: string;
  readonly part?: string;
  readonly library?: readonly string[];
  readonly seed: number;
  readonly draws: number;
  /** data folder whose beliefs the job starts from */
  readonly known?: string;
}

export interface Loaded {
  readonly library: Library;
  readonly enquiry: Enquiry;
  readonly part: PartEnquiry;
}

export async function loadLibrary(files: readonly string[] = []): Promise<Library> {
  return createLibrary(await Promise.all(files.map((file) => readJson(file, "library file"))));
}

/** The enquiry with the part that is asked about. */
export async function loadPart(flags: PhysicsFlags): Promise<Loaded> {
  const library = await loadLibrary(flags.library);
  const enquiry = parseEnquiry(await readJson(flags.enquiry, "enquiry"), library);
  const part = flags.part === undefined ? enquiry.parts[0] : enquiry.parts.find((p) => p.id === flags.part);
  if (!part) return invalid("part", flags.part ?? "none", "", `one of: ${enquiry.parts.map((p) => p.id).join(", ")}`);
  return { library, enquiry, part };
}

/** A clear line when triage declines the part. */
export function requireMetal(part: PartEnquiry): void {
  const { verdict, reasons } = triage(part);
  if (verdict === "declined") invalid("part", part.name, "", `declined: ${reasons.join(" ")}`);
}

/** A model of the part, or a clear line when triage declines it. */
export function modelOf(part: PartEnquiry, flags: PhysicsFlags, beliefs: readonly Belief[] = []): PartModel {
  requireMetal(part);
  return createPartModel(part, { seed: flags.seed, drawCount: flags.draws, beliefs });
}

/** A trial file as it is kept, its own cautions included. */
export async function loadTrialWire(file: string): Promise<TrialWire> {
  return parseTrialWire(await readJson(file, "trial"));
}

export async function loadTrial(file: string): Promise<Trial> {
  return trialFromWire(await loadTrialWire(file));
}

export async function loadOutcomes(file: string, trial: Trial, part?: PartEnquiry): Promise<RecordedOutcomes> {
  const wanted = part?.acceptance.tests ?? [];
  if (/\.xlsx$/i.test(file)) return outcomesFromXlsx(await readBytes(file, "outcomes file", BYTES_MAX), trial, wanted);
  return parseOutcomesCsv(await readText(file, "outcomes file"), trial, wanted);
}

/** The part that a trial was planned for. */
export function partOf(enquiry: Enquiry, trial: Trial): PartEnquiry {
  return (
    enquiry.parts.find((p) => p.id === trial.partId) ??
    invalid("trial part", trial.partId, "", `one of: ${enquiry.parts.map((p) => p.id).join(", ")}`)
  );
}
