import { beamState, checkSetting } from "#beam";
import { metalReading, type PatchEvidence, residueReading } from "#calibration";
import type { Ray } from "#edges";
import type { Acceptance, LaserSetup, Outcome, Setting, Trial } from "#terms";
import { InvalidInput, invalid } from "#units";
import { type EdgeBook, fullPower } from "./edge-book.ts";
import { joinOutcomes } from "#gauging";

/** Graded patches of a trial in the form that the calibration takes, with what had to be left out. */
export interface TrialEvidenceRead {
  readonly patches: readonly PatchEvidence[];
  /** setting of each of them */
  readonly settings: readonly Setting[];
  readonly caveats: readonly string[];
  /** most graders told apart */
  readonly graders: readonly string[];
}

/**
 * Reads the outcomes of a trial. A patch that says nothing of residue or metal, whose setting the set-up cannot run, or
 * that was graded in two ways is told of, not silently dropped.
 * Throws InvalidInput when the trial belongs to another set-up.
 */
export function readTrial(
  book: EdgeBook,
  setup: LaserSetup,
  acceptance: Acceptance,
  trial: Trial,
  outcomes: readonly Outcome[],
): TrialEvidenceRead {
  if (trial.setupId !== setup.id) invalid("laser", setup.id, "", `the trial was planned for ${trial.setupId}`);
  const caveats: string[] = [];
  const byPatch = new Map<number, Outcome>();
  for (const patch of new Set(outcomes.map((outcome) => outcome.patch))) {
    const { outcome, graders, disagree } = joinOutcomes(outcomes.filter((o) => o.patch === patch));
    if (disagree)
      caveats.push(
        `Patch ${patch} was graded in two ways (${graders.map((g) => g || "no name").join(", ")}): the last counts.`,
      );
    byPatch.set(patch, outcome);
  }
  const known = new Set(trial.patches.map((p) => p.patch));
  const strangers = [...byPatch.keys()].filter((p) => !known.has(p));
  if (strangers.length > 0) caveats.push(`Not on the plan, left out: patch ${strangers.join(", ")}.`);
  const usual = usualThickness(outcomes);
  const coupons = [...new Set(trial.patches.map((p) => p.coupon))].sort((a, b) => a - b);
  const graders: string[] = [];
  const rays = new Map<string, Ray>(book.rays.map((ray) => [JSON.stringify(ray.setting), ray]));
  const patches: PatchEvidence[] = [];
  const settings: Setting[] = [];
  const silent: number[] = [];
  const refused: number[] = [];
  for (const planned of trial.patches) {
    const outcome = byPatch.get(planned.patch);
    if (!outcome || !planned.setting) continue;
    const residue = residueReading(outcome, acceptance);
    const metal = metalReading(outcome, acceptance);
    if (residue === null && metal === null) {
      silent.push(planned.patch);
      continue;
    }
    const ray = rayOf(book, setup, planned.setting, rays);
    if (ray === null) {
      refused.push(planned.patch);
      continue;
    }
    let grader = graders.indexOf(outcome.grader);
    if (grader < 0) grader = graders.push(outcome.grader) - 1;
    const { thicknessBefore } = outcome;
    patches.push({
      patch: planned.patch,
      ray,
      x: powerOn(setup, ray, planned.setting),
      coupon: coupons.indexOf(planned.coupon),
      grader,
      thickness: thicknessBefore !== null && usual !== null ? Math.log(thicknessBefore / usual) : 0,
      residue,
      metal,
    });
    settings.push(planned.setting);
  }
  if (silent.length > 0) caveats.push(`Nothing was read on patch ${silent.join(", ")}: left out.`);
  if (refused.length > 0) caveats.push(`The set-up cannot run the setting of patch ${refused.join(", ")}: left out.`);
  return { patches, settings, caveats, graders };
}

/** ln of the power of a setting over that of its ray. */
export function powerOn(setup: LaserSetup, ray: Ray, setting: Setting): number {
  return Math.log(beamState(setup, setting).meanPower / beamState(setup, ray.setting).meanPower);
}

function rayOf(book: EdgeBook, setup: LaserSetup, setting: Setting, rays: Map<string, Ray>): Ray | null {
  try {
    checkSetting(setup, setting);
    const key = JSON.stringify(fullPower(setup, setting, null));
    const known = rays.get(key);
    if (known) return known;
    const solved = book.solve(setting);
    rays.set(key, solved);
    return solved;
  } catch (error) {
    if (error instanceof InvalidInput) return null;
    throw error;
  }
}

/** Median of the gauged thicknesses before burning, m; null with fewer than three. */
function usualThickness(outcomes: readonly Outcome[]): number | null {
  const read = outcomes.flatMap((o) =>
    o.thicknessBefore !== null && o.thicknessBefore > 0 ? [o.thicknessBefore] : [],
  );
  if (read.length < 3) return null;
  read.sort((a, b) => a - b);
  return read[Math.floor(read.length / 2)]!;
}
