import type { Enquiry, EnquiryAnswer } from "#terms";
import { type AnswerOptions, answerFlow, type PartTask } from "#workflows";
import { type SweepOptions, workOnThreads } from "./sweep.ts";

export interface AnswerRun extends SweepOptions {
  readonly signal?: AbortSignal;
  readonly onProgress?: (words: string) => void;
}

/** Works a whole enquiry on threads; the same answer as `answerEnquiry`. */
export function answerOnThreads(enquiry: Enquiry, options: AnswerOptions, run: AnswerRun = {}): Promise<EnquiryAnswer> {
  const { seed, drawCount, beliefs = [], shelves } = options;
  return workOnThreads(
    answerFlow(enquiry, options),
    { parts: enquiry.parts, seed, drawCount, beliefs, ...(shelves === undefined ? {} : { shelves }) },
    {
      ...(run.threads === undefined ? {} : { threads: run.threads }),
      ...(run.signal === undefined ? {} : { signal: run.signal }),
      onProgress: (done, of, task) => run.onProgress?.(`${done} of ${of}: ${wordsOf(enquiry, task)}`),
    },
  );
}

function wordsOf(enquiry: Enquiry, task: PartTask): string {
  const what = task.kind === "window" ? `window of trial ${task.trial.id}` : task.setup.name;
  return `${enquiry.parts[task.part].name}, ${what}`;
}
