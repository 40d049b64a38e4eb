import type { LibraryFile } from "#library";
import { Cancelled } from "./cancelled.ts";
import type { Answer, Ask, FromWorker, QuestionKind } from "./protocol.ts";

interface Waiting {
  readonly resolve: (answer: never) => void;
  readonly reject: (error: Error) => void;
  readonly onProgress: ((done: number, total: number) => void) | undefined;
}

/** One worker that can be asked and, because the physics is one long computation, cancelled by ending it. */
export class WorkerClient {
  #worker: Worker | null = null;
  #nextId = 1;
  #doc: unknown = undefined;
  #sentDoc: unknown = undefined;
  #files: readonly LibraryFile[] = [];
  readonly #waiting = new Map<number, Waiting>();

  /** The enquiry that later questions are about. */
  setDocument(doc: unknown): void {
    this.#doc = doc;
  }

  /** The own library files that later questions are answered with. */
  setLibrary(files: readonly LibraryFile[]): void {
    this.#files = files;
    this.#sentDoc = undefined;
    this.#worker?.postMessage({ id: 0, kind: "library", ask: { files } });
  }

  ask<K extends QuestionKind>(
    kind: K,
    ask: Ask<K>,
    onProgress?: (done: number, total: number) => void,
  ): Promise<Answer<K>> {
    const worker = this.#open();
    if (kind !== "enquiry" && this.#doc !== this.#sentDoc) {
      this.#sentDoc = this.#doc;
      worker.postMessage({ id: 0, kind: "enquiry", ask: { doc: this.#doc } });
    }
    const id = this.#nextId++;
    return new Promise((resolve, reject) => {
      this.#waiting.set(id, { resolve: resolve as (answer: never) => void, reject, onProgress });
      worker.postMessage({ id, kind, ask });
    });
  }

  cancel(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.#sentDoc = undefined;
    for (const waiting of this.#waiting.values()) waiting.reject(new Cancelled("cancelled"));
    this.#waiting.clear();
  }

  #open(): Worker {
    if (this.#worker) return this.#worker;
    const worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
    worker.onmessage = (event: MessageEvent<FromWorker>) => this.#hear(event.data);
    worker.onerror = (event) => {
      event.preventDefault();
      for (const waiting of this.#waiting.values())
        waiting.reject(new Error(event.message || "the computation stopped"));
      this.#waiting.clear();
      this.#worker = null;
      this.#sentDoc = undefined;
    };
    this.#worker = worker;
    if (this.#files.length > 0) worker.postMessage({ id: 0, kind: "library", ask: { files: this.#files } });
    return worker;
  }

  #hear(message: FromWorker): void {
    const waiting = this.#waiting.get(message.id);
    if (!waiting) return;
    if (message.state === "progress") {
      waiting.onProgress?.(message.done, message.total);
      return;
    }
    this.#waiting.delete(message.id);
    if (message.state === "done") waiting.resolve(message.answer as never);
    else waiting.reject(new Error(message.line));
  }
}

/**
 * Quick answers never wait behind what may take a second, nor that behind a long survey: the numbers that follow a hand,
 * the picture that follows them, what follows once the hand rests (edges, map, film), and long work.
 */
export const quickWorker = new WorkerClient();
export const pictureWorker = new WorkerClient();
export const restWorker = new WorkerClient();
export const longWorker = new WorkerClient();
export const allWorkers: readonly WorkerClient[] = [quickWorker, pictureWorker, restWorker, longWorker];
