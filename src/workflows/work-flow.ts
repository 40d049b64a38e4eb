import { type PartTask, type PartWork, taskRunner } from "./part-task.ts";

/** A flow that asks for batches of tasks, whoever works them, and goes on with their results. */
export type Asking<R> = Generator<readonly PartTask[], R, readonly unknown[]>;

/** Works a flow on this thread, task after task. */
export function workFlow<R>(flow: Asking<R>, work: PartWork): R {
  const run = taskRunner(work);
  let step = flow.next([]);
  while (!step.done) step = flow.next(step.value.map((task) => run(task)));
  return step.value;
}
