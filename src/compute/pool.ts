import type { Worker } from "node:worker_threads";
import type { PartTask, PartWork } from "#workflows";
import { errorOf, type FromThread, type ToThread } from "./messages.ts";
import type { ThreadStart } from "./thread-file.ts";

/** A task that waits for a thread, or is being worked by one. */
interface Job {
  readonly task: PartTask;
  settle(result: unknown): void;
  fail(error: Error): void;
}

interface Thread {
  readonly worker: Worker;
  job: Job | null;
}

/** A few threads that work tasks in the order they come; started when first needed, kept until closed. */
export class Pool {
  readonly #thread: ThreadStart;
  readonly #work: PartWork;
  readonly #size: number;
  readonly #threads = new Set<Thread>();
  readonly #waiting: Job[] = [];

  constructor(thread: ThreadStart, work: PartWork, size: number) {
    this.#thread = thread;
    this.#work = work;
    this.#size = size;
  }

  run(task: PartTask): Promise<unknown> {
    return new Promise((settle, fail) => {
      this.#waiting.push({ task, settle, fail });
      this.#feed();
    });
  }

  /** Ends every thread at once; what was waiting or being worked fails with the error. */
  async stop(error: Error): Promise<void> {
    const threads = [...this.#threads];
    this.#threads.clear();
    for (const job of this.#waiting.splice(0)) job.fail(error);
    for (const thread of threads) thread.job?.fail(error);
    await Promise.all(threads.map((t) => t.worker.terminate()));
  }

  #feed(): void {
    while (this.#waiting.length > 0) {
      const idle = [...this.#threads].find((t) => t.job === null) ?? this.#start();
      if (!idle) return;
      idle.job = this.#waiting.shift() as Job;
      idle.worker.ref();
      const message: ToThread = { id: 0, task: idle.job.task };
      idle.worker.postMessage(message);
    }
  }

  #start(): Thread | null {
    if (this.#threads.size >= this.#size) return null;
    const thread: Thread = { worker: this.#thread(this.#work), job: null };
    this.#threads.add(thread);
    thread.worker.on("message", (message: FromThread) => this.#done(thread, message));
    thread.worker.on("error", (error: Error) => this.#lost(thread, error.message));
    // A thread may end without a word, for want of memory say: its task must not be waited for for ever.
    thread.worker.on("exit", (code) => this.#lost(thread, `it ended with ${code}`));
    return thread;
  }

  #done(thread: Thread, message: FromThread): void {
    const { job } = thread;
    thread.job = null;
    // An idle thread does not keep the program alive.
    thread.worker.unref();
    if (!job) return;
    if ("result" in message) job.settle(message.result);
    else job.fail(errorOf(message));
    this.#feed();
  }

  #lost(thread: Thread, why: string): void {
    if (!this.#threads.delete(thread)) return;
    thread.job?.fail(new Error(`a thread of the sweep was lost while working a ${thread.job.task.kind} (${why})`));
    this.#feed();
  }
}
