import { beamState, spotDiameterAt } from "#beam";
import { quantile } from "#numerics";
import { predictPatch } from "#patch";
import type { EdgeSpread, LaserSetup, PatchResult, Setting, TwoEdgeBar } from "#terms";
import type { PartModel } from "./part-model.ts";
import { planOf } from "./predict.ts";
import { isClean } from "./scores.ts";

/** Draws that the edges are read from, and how far (ln power) they are searched around the setting. */
const EDGE_DRAWS = 24;
const SPAN = 3.5;
const HALVINGS = 9;

/** Value of a setting on its bar's axis: peak fluence (pulsed) or areal dose of one pass (continuous), J/m². */
export function axisValue(setup: LaserSetup, setting: Setting): number {
  const beam = beamState(setup, setting);
  return setup.kind === "pulsed" ? (beam.fluencePeak as number) : beam.arealDose;
}

/**
 * Where the layer starts to come off and where the metal starts to change, as the power of one setting is scaled with
 * everything else held, beyond what the machine can set where need be; each with its spread over the draws.
 */
export function twoEdges(model: PartModel, setup: LaserSetup, setting: Setting): TwoEdgeBar {
  const plan = planOf(model, setup, setting);
  const at = axisValue(setup, setting);
  const clean: number[] = [];
  const damage: number[] = [];
  const { acceptance } = model.part;
  for (const draw of model.draws.slice(0, EDGE_DRAWS)) {
    // Both searches halve the same span and so ask for the same powers at first.
    const known = new Map<number, PatchResult>();
    const result = (ln: number): PatchResult => {
      const found = known.get(ln) ?? predictPatch(draw, plan, acceptance, Math.exp(ln));
      known.set(ln, found);
      return found;
    };
    clean.push(crossing((ln) => isClean(result(ln), acceptance)));
    damage.push(marginCrossing((ln) => result(ln).damageMargin));
  }
  const reach = reachOf(setup);
  return {
    axis: setup.kind === "pulsed" ? "fluence" : "dose",
    removalEdge: edge(clean, at),
    damageEdge: edge(damage, at),
    reachLow: reach.low,
    reachHigh: reach.high,
    best: at,
  };
}

/** ln power at which a condition begins to hold; ±SPAN where it holds nowhere or everywhere. */
function crossing(holds: (ln: number) => boolean): number {
  let low = -SPAN;
  let high = SPAN;
  for (let i = 0; i < HALVINGS; i++) {
    const mid = (low + high) / 2;
    if (holds(mid)) high = mid;
    else low = mid;
  }
  return (low + high) / 2;
}

/** ln power at which a margin that falls with power is used up, to the same step; ±SPAN where it is not in that span. */
function marginCrossing(margin: (ln: number) => number): number {
  let low = -SPAN;
  let high = SPAN;
  // The margin counts ln power itself where nothing else changes with it, so its own value is the next guess.
  let at = 0;
  for (let i = 0; i < HALVINGS && high - low > (2 * SPAN) / 2 ** HALVINGS; i++) {
    const m = margin(at);
    if (Math.abs(m) < SPAN / 2 ** HALVINGS) return at;
    if (m > 0) low = at;
    else high = at;
    const guess = at + m;
    at = guess > low && guess < high && i < HALVINGS / 2 ? guess : (low + high) / 2;
  }
  return (low + high) / 2;
}

function edge(lns: readonly number[], at: number): EdgeSpread | null {
  const median = quantile(lns, 0.5);
  if (median > SPAN * 0.98) return null;
  return {
    low: at * Math.exp(quantile(lns, 0.05)),
    median: at * Math.exp(median),
    high: at * Math.exp(quantile(lns, 0.95)),
  };
}

/** Smallest and largest axis value that a set-up can be set to. */
function reachOf(setup: LaserSetup): { low: number; high: number } {
  const spots = setup.lenses.flatMap((lens) => [spotDiameterAt(lens, 0), spotDiameterAt(lens, setup.defocusMax)]);
  const smallest = Math.min(...spots);
  const largest = Math.max(...spots);
  if (setup.kind === "pulsed") {
    const energies = setup.pulses.map((p) => p.energyMax);
    const least = Math.min(...setup.pulses.map((p) => Math.min(p.energyMax, setup.ratedPower / p.frequencyMax)));
    const factor = setup.profile === "gaussian" ? 2 : 1;
    const area = (d: number) => (Math.PI * d * d) / 4;
    return { low: (factor * least) / area(largest), high: (factor * Math.max(...energies)) / area(smallest) };
  }
  const spacing = Math.max(setup.lineSpacingMin, 0.15 * smallest);
  return {
    low: (0.1 * setup.ratedPower) / (setup.speedMax * largest),
    high: setup.ratedPower / (Math.max(setup.speedMin, setup.speedMax / 400) * spacing),
  };
}
