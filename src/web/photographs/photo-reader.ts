import { Cancelled } from "../live/cancelled.ts";
import { Undecodable } from "./undecodable.ts";
import type { FlatAsk, FromPhotoWorker, PhotoProgress, PhotoQuestion, ReadAnswer, ReadAsk } from "./protocol.ts";

interface Job {
  readonly question: PhotoQuestion;
  readonly hear: (message: FromPhotoWorker) => void;
  readonly fail: (error: Error) => void;
}

/** ms without a question after which the worker is ended: it holds some hundred MB. */
const IDLE = 60_000;

/**
 * The worker that looks at photographs: one question after another, since each fills the memory. It starts with the
 * first question, and stopping ends it with all that waits.
 */
class PhotoReader {
  #worker: Worker | null = null;
  #jobs: Job[] = [];
  #idle: ReturnType<typeof setTimeout> | undefined;

  read(ask: ReadAsk, onProgress: (progress: PhotoProgress) => void): Promise<ReadAnswer> {
    return this.#ask({ kind: "read", ask }, onProgress).then((m) => (m as { answer: ReadAnswer }).answer);
  }

  flat(ask: FlatAsk): Promise<Blob | null> {
    return this.#ask({ kind: "flat", ask }).then((m) => (m as { file: Blob | null }).file);
  }

  cancel(): void {
    this.#end(new Cancelled("cancelled"));
  }

  #ask(question: PhotoQuestion, onProgress?: (progress: PhotoProgress) => void): Promise<FromPhotoWorker> {
    return new Promise((resolve, reject) => {
      const hear = (message: FromPhotoWorker): void => {
        if (message.state === "progress") {
          onProgress?.(message.progress);
          return;
        }
        if (message.state === "failed") reject(new Error(message.line));
        else if (message.state === "undecodable") reject(new Undecodable(message.name));
        else resolve(message);
        this.#jobs.shift();
        this.#next();
      };
      this.#jobs.push({ question, hear, fail: reject });
      if (this.#jobs.length === 1) this.#next();
    });
  }

  #next(): void {
    const [job] = this.#jobs;
    clearTimeout(this.#idle);
    if (job) this.#open().postMessage(job.question);
    else this.#idle = setTimeout(() => this.#end(new Cancelled("cancelled")), IDLE);
  }

  #end(error: Error): void {
    this.#worker?.terminate();
    this.#worker = null;
    const jobs = this.#jobs;
    this.#jobs = [];
    for (const job of jobs) job.fail(error);
  }

  #open(): Worker {
    if (this.#worker) return this.#worker;
    const worker = new Worker(new URL("./photo-worker.ts", import.meta.url), { type: "module", name: "photographs" });
    worker.onmessage = ({ data }: MessageEvent<FromPhotoWorker>) => this.#jobs[0]?.hear(data);
    worker.onerror = (event) => {
      event.preventDefault();
      this.#end(new Error(event.message || "reading the photographs stopped"));
    };
    this.#worker = worker;
    return worker;
  }
}

export const photoReader = new PhotoReader();
