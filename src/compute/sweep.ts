import { availableParallelism } from "node:os";
import { type Asking, type PartTask, type PartWork, type ResultOf, taskRunner } from "#workflows";
import { SweepCancelled } from "./cancelled.ts";
import { Pool } from "./pool.ts";
import { threadStart } from "./thread-file.ts";

export interface SweepOptions {
  /** threads to work on; as many as there are processors when left out; 0 or 1 works on the caller's own thread */
  readonly threads?: number;
}

export interface RunOptions {
  /** ends the work and frees the threads; the run fails with SweepCancelled */
  readonly signal?: AbortSignal;
  /** after each task: how many of the run are done, and which one it was */
  readonly onProgress?: (done: number, of: number, task: PartTask) => void;
}

/** Parts with their models, on threads, ready to work tasks. */
export interface Sweep {
  /** Results in the order of the tasks. Fails with the first failure of a task, and then ends the others. */
  run<T extends PartTask>(tasks: readonly T[], options?: RunOptions): Promise<ResultOf<T>[]>;
  /** Ends the threads. */
  close(): Promise<void>;
}

/**
 * Opens a sweep over some parts. Threads give the same numbers, bit for bit, as the caller's own: a task is plain data
 * and its model is built from the same parts, seed and number of draws.
 */
export function openSweep(work: PartWork, options: SweepOptions = {}): Sweep {
  const threads = options.threads ?? availableParallelism();
  const start = threads > 1 ? threadStart() : null;
  if (start === null) return hereSweep(work);
  const pool = new Pool(start, work, threads);
  return {
    async run<T extends PartTask>(tasks: readonly T[], { signal, onProgress }: RunOptions = {}) {
      if (signal?.aborted) throw new SweepCancelled();
      const cancel = () => void pool.stop(new SweepCancelled());
      signal?.addEventListener("abort", cancel, { once: true });
      let done = 0;
      try {
        return await Promise.all(
          tasks.map(async (task) => {
            const result = (await pool.run(task)) as ResultOf<T>;
            onProgress?.(++done, tasks.length, task);
            return result;
          }),
        );
      } catch (error) {
        await pool.stop(error as Error);
        throw error;
      } finally {
        signal?.removeEventListener("abort", cancel);
      }
    },
    close: () => pool.stop(new SweepCancelled()),
  };
}

/** The same on this thread: between two tasks other work gets its turn, and a cancel is heard. */
function hereSweep(work: PartWork): Sweep {
  const perform = taskRunner(work);
  return {
    async run<T extends PartTask>(tasks: readonly T[], { signal, onProgress }: RunOptions = {}) {
      const results: ResultOf<T>[] = [];
      for (const task of tasks) {
        await new Promise((turn) => setImmediate(turn));
        if (signal?.aborted) throw new SweepCancelled();
        results.push(perform(task));
        onProgress?.(results.length, tasks.length, task);
      }
      return results;
    },
    close: async () => {},
  };
}

/** Works a flow on threads, batch after batch, and closes them whatever happens. */
export async function workOnThreads<R>(
  flow: Asking<R>,
  work: PartWork,
  options: SweepOptions & RunOptions = {},
): Promise<R> {
  const sweep = openSweep(work, options);
  try {
    let step = flow.next([]);
    while (!step.done) step = flow.next(await sweep.run(step.value, options));
    return step.value;
  } finally {
    await sweep.close();
  }
}
