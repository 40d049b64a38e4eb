import { isProven, type Repeats, repeatsToProve } from "#window";
import { invalid, requireInteger } from "#units";
import type { Chosen } from "../evidence.ts";
import type { SheetBlock } from "./model.ts";
import type { Speech } from "./speech.ts";
import { fill } from "./words.ts";

/** How well a setting is borne out, with what it rests on. */
export type Footing =
  | { readonly kind: "proven" | "tried"; readonly trialId: string; readonly repeats: Repeats }
  | { readonly kind: "predicted" };

/** The footing of what a report recommends; throws InvalidInput where it recommends no setting. */
export function footingOf(chosen: Chosen): Footing {
  const { evidence, recommendation, trial } = chosen;
  if (chosen.setting === null) return invalid("setting", null, "", "nothing is recommended that could be worked from");
  if (recommendation === null || trial === null) return { kind: "predicted" };
  return {
    kind: evidence === "proven" ? "proven" : "tried",
    trialId: trial.id,
    repeats: { burned: recommendation.repeats, good: recommendation.repeatsGood },
  };
}

/**
 * The banner over a setting. "Proven" is only said with the repeats that prove it: at least three, all good (see
 * `isProven` of #window); throws InvalidInput for a footing that claims more.
 */
export function footingBanner(footing: Footing, speech: Speech): SheetBlock {
  const said = speech.words.evidence;
  if (footing.kind === "predicted")
    return { kind: "banner", tone: "warn", words: said.unproven, detail: said.predictedDetail };
  const { trialId, repeats } = footing;
  const burned = requireInteger("repeats", repeats.burned, 0);
  const good = requireInteger("good repeats", repeats.good, 0, burned);
  const values = { burned, good, trial: trialId };
  if (footing.kind === "tried")
    return { kind: "banner", tone: "warn", words: said.unproven, detail: fill(said.triedDetail, values) };
  if (!isProven(repeats))
    return invalid(
      "proven setting",
      `${good} of ${burned}`,
      "repeats good",
      `at least ${repeatsToProve}, and all good`,
    );
  return { kind: "banner", tone: "plain", words: said.proven, detail: fill(said.provenDetail, values) };
}

/** True where a setting may only be used in a trial. */
export const trialOnly = (footing: Footing): boolean => footing.kind !== "proven";
