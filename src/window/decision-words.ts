import type { DriftSpread } from "#terms";
import type { BatchPick } from "./batch.ts";
import type { Choice, ChoiceTable } from "./choice-table.ts";
import { likeliest } from "./choose.ts";
import { cleanSitesFor, failureUpperBound } from "./failure-bound.ts";
import { type Repeats, repeatsToProve } from "./same-setting.ts";
import { type StopState, stopLimits, type StopVerdict } from "./stop-rule.ts";

/** No more than this is ever said, whatever the number is. */
export const statedMax = 0.95;

/**
 * A probability as it may be said: never above 0.95. `p` 0 to 1; result 0 to 0.95. Throws nothing.
 * Source: own rule; a coupon trial cannot see the last one in twenty.
 */
export function statedProbability(p: number): number {
  return Math.min(statedMax, Math.max(0, p));
}

/** "87 of 100", never more than 95. Rounded down, so that words never promise more than the number. */
export function perHundred(p: number): string {
  return `${Math.floor(100 * statedProbability(p) + 1e-9)} of 100`;
}

/** ± two standard deviations, as people speak of drift. */
function driftText(drift: DriftSpread): string {
  const per = (s: number) => `±${Number((200 * s).toPrecision(2))} %`;
  return `${per(drift.power)} power, ${per(drift.spot)} spot, ${per(drift.speed)} speed and ${per(drift.thickness)} layer`;
}

/** Why this setting, how sure, on what footing. */
export function chosenWords(choice: Choice, repeats: Repeats, proven: boolean, drift: DriftSpread): string[] {
  const capped = choice.share > statedMax ? "; more than 95 of 100 is never claimed from coupons" : "";
  return [
    `In ${perHundred(choice.share)} versions of the physics that fit these coupons this setting is clean and undamaged under ${driftText(drift)}${capped}.`,
    ...repeatWords(repeats),
    provenWords(repeats, proven),
  ];
}

export function repeatWords(repeats: Repeats): string[] {
  const { burned, good } = repeats;
  if (burned === 0) return ["This setting has not been burned yet: the number rests on its neighbours and on physics."];
  const bound = failureUpperBound(burned, burned - good);
  const shown =
    bound >= 1
      ? "that alone bounds nothing"
      : `that alone shows a failure share below ${Math.ceil(100 * bound - 1e-9)} % (95 % sure)`;
  const words = [
    `Burned ${times(burned)}, ${good} clean and undamaged: ${shown}; a failure share below 1 % would need ${cleanSitesFor(0.01)} clean patches in a row.`,
  ];
  if (good < burned) words.push("A repeat failed: find out why before this setting is used.");
  return words;
}

export function provenWords(repeats: Repeats, proven: boolean): string {
  if (proven) return `Proven on coupons: ${repeats.good} repeats, every one clean and undamaged.`;
  if (repeats.good < repeats.burned) return "Not proven: not every repeat was clean and undamaged.";
  const missing = repeatsToProve - repeats.good;
  return `Not yet proven: ${missing} more clean, undamaged ${missing === 1 ? "repeat is" : "repeats are"} wanted.`;
}

/** What the rule of stopping says, and what it rests on. */
export function stopWords(state: StopState, verdict: StopVerdict, confidence: number): string[] {
  const gain = state.gain === null ? null : `${Math.max(0, Math.round(100 * state.gain))} %`;
  if (verdict === "recommend")
    return [
      `The trial has settled the question by its own rule: ${state.patches} patches, the choice burned ${times(state.repeats?.burned ?? 0)}, expected gain of going on ${gain}. A faster setting may exist.`,
    ];
  if (verdict === "nothing found")
    return [
      `The trial may end here by its own rule: after ${state.patches} patches no setting keeps more than ${perHundred(Math.max(state.bestShare, 0.01))} versions of the physics.`,
    ];
  const words: string[] = [];
  if (state.patches < stopLimits.patches)
    words.push(
      `At least ${stopLimits.patches} graded patches are wanted before a verdict; there are ${state.patches}.`,
    );
  if (gain === null)
    words.push(
      `No setting meets the acceptance in ${Math.round(100 * confidence)} of 100 versions yet; the likeliest does in ${perHundred(state.bestShare)}.`,
    );
  else words.push(`A faster setting may exist: expected gain ${gain}.`);
  return words;
}

/** What to say when no setting meets the acceptance: never "impossible", always what stood in the way and what to try. */
export function nothingFoundWords(table: ChoiceTable, verdict: StopVerdict): string[] {
  const first = "No window found among the settings tried.";
  const best = likeliest(table);
  if (best === null) return [first, "No setting was handed in to choose from."];
  const obstacle =
    best.clean <= best.undamaged
      ? "residue is what stands in the way: another pulse width, spot, pass count or laser may take it off below the damage edge"
      : "damage is what stands in the way: shorter pulses, more and gentler passes, pauses or another laser may spare the metal";
  const next =
    verdict === "nothing found"
      ? "Try another laser or lens, a looser acceptance, or a second step (wipe, chemical, abrasive) on what is left."
      : "The next patches below are where a window is likeliest.";
  return [
    first,
    `The likeliest of ${table.choices.length} settings is expected clean and undamaged on ${perHundred(best.both)} patches; ${obstacle}.`,
    next,
  ];
}

/** Why a patch is to be burned. */
export function pickWords(pick: BatchPick, choice: Choice | null): string {
  const share = perHundred(pick.share);
  switch (pick.why) {
    case "repeat":
      return "Repeat of the present choice: a faster setting may exist, but proof is now worth more.";
    case "first":
      return `In ${share} versions that fit the outcomes this setting is the first good one.`;
    case "faster": {
      const faster = choice === null ? 0 : pick.choice.areaRate / choice.areaRate - 1;
      const pace =
        faster > 0.005
          ? `good and ${Math.round(100 * faster)} % faster than the present choice`
          : "good where the patches before it are not";
      return `In ${share} versions that fit the outcomes this setting is ${pace}.`;
    }
    case "likely":
      return `Likeliest untried setting away from the others, clean and undamaged on ${perHundred(pick.choice.both)} patches.`;
  }
}

export function times(count: number): string {
  return count === 1 ? "once" : `${count} times`;
}
