import type { EnquiryLine } from "../api/enquiries.ts";
import type { StepId } from "../app/place.ts";
import type { words } from "../words/index.ts";

export type EnquiryState = keyof typeof words.list.states;

/** Where the next thing to do is done. */
export const nextStep: Record<EnquiryState, StepId> = {
  described: "lasers",
  tried: "results",
  proven: "window",
  answered: "report",
};

/** How far an enquiry has come, by what is kept of it. */
export function stateOf(item: Pick<EnquiryLine, "answers" | "outcomes" | "trials">): EnquiryState {
  if (item.answers > 0) return "answered";
  if (item.outcomes > 0) return "proven";
  return item.trials > 0 ? "tried" : "described";
}
