import type { PaperMade, PaperWork } from "./paper-work.ts";
import { type AnswerMade, type AnswerWork, workAnswer } from "./work-answer.ts";
import { workPaper } from "./work-paper.ts";

export type DeskWork = AnswerWork | PaperWork;
export type DeskMade<W extends DeskWork> = W extends AnswerWork ? AnswerMade : PaperMade;

/** Whatever is too much for the thread that serves the pages. */
export async function deskWork<W extends DeskWork>(work: W): Promise<DeskMade<W>> {
  const made = work.kind === "answer" ? await workAnswer(work) : await workPaper(work);
  return made as DeskMade<W>;
}
