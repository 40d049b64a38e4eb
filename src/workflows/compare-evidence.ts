import { beamState } from "#beam";
import type { EvidenceComparison, EvidenceSide } from "#report";
import type { LaserSetup, PartAnswer, SourceKind } from "#terms";
import { formatQuantity } from "#units";
import { isProven, repeatsToProve } from "#window";

/** What the caller works out for a setting on a set-up. */
export interface SideFigures {
  readonly cost: EvidenceSide["cost"];
  readonly hazard: number;
  readonly eyewear: string;
}

type Run = PartAnswer["trials"][number];

/** The run that stands for a kind of source: proven first, then one with a recommendation, then the one with most patches. */
function bestRun(runs: readonly Run[]): Run | null {
  const rank = ({ window, outcomes }: Run): number => {
    const r = window?.recommended ?? null;
    return r === null
      ? outcomes.length / 1e6
      : (isProven({ burned: r.repeats, good: r.repeatsGood }) ? 2 : 1) + r.areaRate;
  };
  const graded = runs.filter(({ outcomes }) => outcomes.length > 0);
  return graded.reduce<Run | null>((best, run) => (best === null || rank(run) > rank(best) ? run : best), null);
}

/**
 * The best pulsed against the best continuous trial of one part, by what was burned. A setting that was not burned again
 * three times is not compared: the best of many looks better than it is. One part has one metal and one stack, so that
 * nothing is ever compared across stacks.
 */
export function compareEvidence(
  part: PartAnswer,
  setupOf: (id: string) => LaserSetup,
  figures: (setup: LaserSetup, setting: NonNullable<EvidenceSide["recommendation"]>["setting"]) => SideFigures,
): EvidenceComparison {
  const side = (kind: SourceKind): EvidenceSide | null => {
    const run = bestRun(part.trials.filter(({ trial }) => setupOf(trial.setupId).kind === kind));
    if (run === null) return null;
    const setup = setupOf(run.trial.setupId);
    const recommendation = run.window?.recommended ?? null;
    const own = recommendation === null ? null : figures(setup, recommendation.setting);
    return {
      kind,
      trialId: run.trial.id,
      setupName: setup.name,
      patches: run.window?.diagnostics.patches ?? 0,
      recommendation,
      meanPower: recommendation === null ? null : beamState(setup, recommendation.setting).meanPower,
      cost: own?.cost ?? null,
      hazard: own?.hazard ?? null,
      eyewear: own?.eyewear ?? null,
    };
  };
  const [pulsed, continuous] = [side("pulsed"), side("continuous")];
  return { pulsed, continuous, words: words(pulsed, continuous), ...likeness(pulsed, continuous, setupOf, part) };
}

/** Why a side cannot be compared yet, or null. */
function notYet(side: EvidenceSide | null, kind: SourceKind): string | null {
  if (side === null) return `No ${kind} laser was tried on this part.`;
  const { recommendation: r } = side;
  if (r === null) return `The ${kind} trial found no window.`;
  if (r.repeats < repeatsToProve)
    return `The ${kind} setting was burned ${r.repeats} of the ${repeatsToProve} times that a comparison asks for: the best of many patches looks better than it is.`;
  return r.repeatsGood === r.repeats
    ? null
    : `Of ${r.repeats} burns of the ${kind} setting ${r.repeats - r.repeatsGood} were not clean and undamaged.`;
}

function words(pulsed: EvidenceSide | null, continuous: EvidenceSide | null): string[] {
  const open = [notYet(pulsed, "pulsed"), notYet(continuous, "continuous")].flatMap((w) => w ?? []);
  const [p, c] = [pulsed?.recommendation ?? null, continuous?.recommendation ?? null];
  if (open.length > 0 || p === null || c === null) return [...open, "So no verdict is given between the two."];
  const [fast, slow] = c.areaRate > p.areaRate ? [continuous!, pulsed!] : [pulsed!, continuous!];
  const [f, s] = [fast.recommendation!, slow.recommendation!];
  const rate = (r: typeof f): string => formatQuantity(r.areaRate, "m2/h", 2);
  const cleaner = s.probabilityBoth > f.probabilityBoth + 0.02;
  const cheaper =
    fast.cost !== null && slow.cost !== null && fast.cost.high < slow.cost.low
      ? `, and costs less whatever the figures within their spread`
      : "";
  return [
    `Both were proven on this metal and stack: ${fast.setupName} is faster (${rate(f)} against ${rate(s)})${cheaper}.`,
    ...(cleaner ? [`${slow.setupName} is the surer of the two.`] : []),
  ];
}

function likeness(
  pulsed: EvidenceSide | null,
  continuous: EvidenceSide | null,
  setupOf: (id: string) => LaserSetup,
  part: PartAnswer,
): Pick<EvidenceComparison, "equal" | "unequal"> {
  const [p, c] = [pulsed?.recommendation?.setting, continuous?.recommendation?.setting];
  if (pulsed === null || continuous === null || !p || !c) return { equal: [], unequal: [] };
  const of = (side: EvidenceSide) => setupOf(part.trials.find(({ trial }) => trial.id === side.trialId)!.trial.setupId);
  const [beamP, beamC] = [beamState(of(pulsed), p), beamState(of(continuous), c)];
  const equal = ["metal and stack", "thickness as described", "acceptance", "grading"];
  const unequal: string[] = [];
  const note = (name: string, a: number, b: number, unit: string): void => {
    if (Math.abs(a - b) <= 0.02 * Math.max(Math.abs(a), Math.abs(b))) equal.push(name);
    else unequal.push(`${name}: ${formatQuantity(a, unit, 3)} against ${formatQuantity(b, unit, 3)}`);
  };
  note("mean power at the work", beamP.meanPower, beamC.meanPower, "W");
  note("peak power", beamP.peakPower, beamC.peakPower, "kW");
  note("spot", beamP.spotDiameter, beamC.spotDiameter, "mm");
  note("line spacing", p.lineSpacing, c.lineSpacing, "mm");
  note("passes", p.passes, c.passes, "");
  if (p.lens === c.lens) equal.push("lens");
  else unequal.push(`lens: ${p.lens} against ${c.lens}`);
  note("patches graded", pulsed.patches, continuous.patches, "");
  return { equal, unequal };
}
