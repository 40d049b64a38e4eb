import type { Comparison, LaserSetup, SetupVerdict, SiteLimits } from "#terms";
import { formatQuantity } from "#units";
import type { PartModel } from "./part-model.ts";
import { surveySetup } from "./survey.ts";

/** The best pulsed and the best continuous verdict, and what has to be searched anew to hold both to one mean power. */
export interface PulsedAndContinuous {
  readonly pulsed: SetupVerdict | null;
  readonly continuous: SetupVerdict | null;
  /** W, the mean power of the smaller one; 0 where only one kind could be judged */
  readonly meanPower: number;
  /** whose best setting exceeds that power */
  readonly above: readonly SetupVerdict[];
}

/** Picks the two sides of a comparison out of the verdicts of a survey, best first. */
export function twoSides(verdicts: readonly SetupVerdict[]): PulsedAndContinuous {
  const best = (kind: "pulsed" | "continuous") => verdicts.find((v) => v.kind === kind && v.best !== null) ?? null;
  const pulsed = best("pulsed");
  const continuous = best("continuous");
  if (!pulsed || !continuous) return { pulsed, continuous, meanPower: 0, above: [] };
  const meanPower = Math.min(pulsed.meanPower, continuous.meanPower);
  return { pulsed, continuous, meanPower, above: [pulsed, continuous].filter((v) => v.meanPower > meanPower * 1.001) };
}

/**
 * Pulsed against continuous on one part: each at its best, and both held to the mean power of the smaller one.
 * `verdicts` are those of `surveySetups`.
 */
export function comparePulsedContinuous(
  model: PartModel,
  setups: readonly LaserSetup[],
  site: SiteLimits,
  verdicts: readonly SetupVerdict[],
): Comparison {
  const sides = twoSides(verdicts);
  const byId = (id: string) => setups.find((s) => s.id === id) as LaserSetup;
  return comparisonOf(
    sides,
    sides.above.map((v) => surveySetup(model, byId(v.setupId), site, sides.meanPower)),
  );
}

/** The comparison in words and figures; `held` are the verdicts of `sides.above` searched again at the smaller power. */
export function comparisonOf(sides: PulsedAndContinuous, held: readonly SetupVerdict[]): Comparison {
  const { pulsed, continuous, meanPower, above } = sides;
  const atEqualPower = (v: SetupVerdict | null): SetupVerdict | null => {
    if (!pulsed || !continuous || !v) return null;
    const again = above.indexOf(v);
    return again < 0 ? v : held[again];
  };
  const equalPulsed = atEqualPower(pulsed);
  const equalContinuous = atEqualPower(continuous);
  return {
    equalPower: {
      meanPower,
      pulsed: equalPulsed,
      continuous: equalContinuous,
      sentence: sentence(
        equalPulsed,
        equalContinuous,
        `At ${formatQuantity(meanPower, "W", 3)} mean power at the work`,
      ),
    },
    eachAtBest: { pulsed, continuous, sentence: sentence(pulsed, continuous, "Each at its best") },
    ...likeness(equalPulsed, equalContinuous),
  };
}

/** One sentence of which does better and why; predicted, so never a verdict on its own. */
function sentence(pulsed: SetupVerdict | null, continuous: SetupVerdict | null, opening: string): string {
  if (!pulsed?.best || !continuous?.best) return `${opening}: only one kind of source could be judged.`;
  const rate = (v: SetupVerdict) => formatQuantity(v.areaRate, "m2/h", 2);
  const sure = (v: SetupVerdict) => `${Math.round(100 * v.sureness)} of 100`;
  if (pulsed.windowExists && continuous.windowExists) {
    const [fast, slow] = continuous.areaRate > pulsed.areaRate ? [continuous, pulsed] : [pulsed, continuous];
    return `${opening}, both have a predicted window: ${fast.setupName} is faster (${rate(fast)} against ${rate(slow)}; clean and undamaged in ${sure(fast)} against ${sure(slow)} versions of the physics).`;
  }
  if (pulsed.windowExists)
    return `${opening}, ${pulsed.setupName} has a predicted window (${rate(pulsed)}, ${sure(pulsed)}); ${continuous.setupName} ${why(continuous)}.`;
  if (continuous.windowExists)
    return `${opening}, ${continuous.setupName} has a predicted window (${rate(continuous)}, ${sure(continuous)}); ${pulsed.setupName} ${why(pulsed)}.`;
  return `${opening}, neither has a predicted window: ${pulsed.setupName} ${why(pulsed)} (${sure(pulsed)}), ${continuous.setupName} ${why(continuous)} (${sure(continuous)}). Patches decide.`;
}

function why(v: SetupVerdict): string {
  switch (v.shortfall) {
    case "does not remove":
      return "does not remove the layer without harm";
    case "melts the metal":
      return "changes the metal where it removes the layer";
    case "harms the layer that must stay":
      return "harms the layer that must stay";
    case "not allowed on site":
      return "is excluded by the limits of the site";
    default:
      return "falls short";
  }
}

function likeness(
  pulsed: SetupVerdict | null,
  continuous: SetupVerdict | null,
): { equal: string[]; unequal: string[] } {
  if (!pulsed?.best || !continuous?.best) return { equal: [], unequal: [] };
  const equal = ["stack and metal", "acceptance", "versions of the physics (same draws)"];
  const unequal: string[] = [];
  const note = (name: string, a: number, b: number, unit: string) => {
    if (Math.abs(a - b) <= 0.02 * Math.max(Math.abs(a), Math.abs(b))) equal.push(name);
    else unequal.push(`${name}: ${formatQuantity(a, unit, 3)} against ${formatQuantity(b, unit, 3)}`);
  };
  const p = pulsed.best;
  const c = continuous.best;
  note("mean power at the work", p.beam.meanPower, c.beam.meanPower, "W");
  note("peak power", p.beam.peakPower, c.beam.peakPower, "kW");
  note("spot", p.beam.spotDiameter, c.beam.spotDiameter, "mm");
  note("line spacing", p.setting.lineSpacing, c.setting.lineSpacing, "mm");
  note("speed", p.setting.speed, c.setting.speed, "mm/s");
  if (p.setting.passes === c.setting.passes) equal.push("passes");
  else unequal.push(`passes: ${p.setting.passes} against ${c.setting.passes}`);
  return { equal, unequal };
}
