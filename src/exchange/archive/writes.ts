import type { OutcomeWire } from "#contract";
import type { StoreTransaction } from "#store";

type Apply = (transaction: StoreTransaction) => Promise<unknown>;

/** One row that a store lacks, with the time at which it was first saved: a grading, or anything else. */
export type Step =
  | { readonly savedAt: string; readonly outcome: OutcomeWire }
  | { readonly savedAt: string; readonly apply: Apply };

/** One call to the store, with the time of each row that it adds. */
export interface Write {
  readonly savedAt: readonly string[];
  readonly apply: Apply;
}

/** By time across the histories, and never against the order inside one, even where a clock was once put back. */
export function inOrder(histories: readonly (readonly Step[])[]): Step[] {
  const timed = histories.flatMap((steps) => {
    let latest = Number.NEGATIVE_INFINITY;
    return steps.map((step) => {
      latest = Math.max(latest, Date.parse(step.savedAt));
      return { step, at: latest };
    });
  });
  return timed.sort((a, b) => a.at - b.at).map(({ step }) => step);
}

/** Gradings that follow one another in one write: the store reads the plan of the trial at each. */
export function together(steps: readonly Step[], trialId: string): Write[] {
  const writes: Write[] = [];
  let run: { savedAt: string; outcome: OutcomeWire }[] = [];
  const endRun = (): void => {
    if (run.length === 0) return;
    const outcomes = run.map((step) => step.outcome);
    writes.push({ savedAt: run.map((s) => s.savedAt), apply: (t) => t.addOutcomes(trialId, outcomes) });
    run = [];
  };
  for (const step of steps) {
    if ("outcome" in step) run.push(step);
    else {
      endRun();
      writes.push({ savedAt: [step.savedAt], apply: step.apply });
    }
  }
  endRun();
  return writes;
}
