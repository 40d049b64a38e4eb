export { type AnswerRun, answerOnThreads } from "./answer.ts";
export { openSweep, type RunOptions, type Sweep, type SweepOptions, workOnThreads } from "./sweep.ts";
export { SweepCancelled } from "./cancelled.ts";
export { threadFromSource, type ThreadStart } from "./thread-file.ts";
