import type { RunEntry } from "#terms";
import { mergeEntries } from "#trial";
import { Refused } from "../api/client.ts";
import { words } from "../words/index.ts";
import type { BenchStore, QueuedEntry, QueuedPhoto } from "./bench-store.ts";

/** What the server said of entries that were sent. */
export interface Taken {
  readonly accepted: readonly string[];
  readonly refused: readonly { readonly id: string | null; readonly error: string }[];
}

/** A log as it was read; `old` is one that this phone kept from an earlier time because the server did not answer. */
export interface ReadLog {
  readonly entries: readonly RunEntry[];
  readonly old: boolean;
}

/** What a queue needs of the world. Calls throw Refused; its `status` 0 says that nobody answered. */
export interface QueueTools {
  readonly store: BenchStore;
  send(trialId: string, entries: readonly RunEntry[]): Promise<Taken>;
  putPhoto(photo: QueuedPhoto): Promise<{ readonly sha256: string }>;
  readLog(trialId: string): Promise<ReadLog>;
  /** runs the work unless another page of this browser is at it; false when it was */
  alone(work: () => Promise<void>): Promise<boolean>;
  /** tells the other pages of this browser that something changed */
  tell(): void;
}

export interface QueueState {
  /** false until what this phone keeps was read */
  readonly opened: boolean;
  /** entries of this trial: those of the server's log and those made here, in order of time */
  readonly entries: readonly RunEntry[];
  /** of all trials, oldest first */
  readonly waiting: readonly QueuedEntry[];
  readonly refused: readonly QueuedEntry[];
  /** why the last attempt did not get through; null when it did */
  readonly trouble: string | null;
  readonly lasting: boolean;
}

const BATCH = 50;
const byTime = (a: QueuedEntry, b: QueuedEntry): number => (a.entry.at < b.entry.at ? -1 : 1);
/** What the error says; the pages' own line on a lost network speaks of changes, here are entries. */
const lineOf = (error: unknown): string => {
  if (error instanceof Refused && error.status === 0) return words.bench.notReached;
  return error instanceof Error ? error.message : String(error);
};
/** The body itself was refused, not the sender or the moment. */
const ofContent = (error: unknown): error is Refused =>
  error instanceof Refused && (error.status === 400 || error.status === 413 || error.status === 415);

/**
 * Entries of one phone on their way. They are kept first and sent when somebody answers, as often as it takes: the
 * server knows each by its id. What it refuses stays here until a person has seen it.
 */
export class BenchQueue {
  readonly #trialId: string;
  readonly #tools: QueueTools;
  readonly #listeners = new Set<() => void>();
  #state: QueueState;
  #sending: Promise<boolean> | null = null;

  constructor(trialId: string, tools: QueueTools) {
    this.#trialId = trialId;
    this.#tools = tools;
    const { lasting } = tools.store;
    this.#state = { opened: false, entries: [], waiting: [], refused: [], trouble: null, lasting };
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };
  readonly state = (): QueueState => this.#state;

  /** Reads what this phone keeps: at first, and when another page of this browser changed it. */
  async reload(): Promise<void> {
    const { store } = this.#tools;
    const [items, log] = [await store.all(), await store.log(this.#trialId)];
    const own = items.filter((i) => i.trialId === this.#trialId && i.state !== "refused").map((i) => i.entry);
    this.#set({
      opened: true,
      entries: mergeEntries(log, own),
      waiting: items.filter((i) => i.state === "waiting").sort(byTime),
      refused: items.filter((i) => i.state === "refused").sort(byTime),
    });
  }

  /** Keeps an entry; rejects when this phone could not. It is not sent yet when this resolves. */
  async add(entry: RunEntry, photo: QueuedPhoto | null = null): Promise<void> {
    const { id } = entry;
    const item = { id, trialId: this.#trialId, entry, state: "waiting", line: "", withPhoto: photo !== null } as const;
    await this.#tools.store.add(item, photo);
    await this.#changed();
  }

  /** A person has seen the refusal: the entry is given up. */
  async dismiss(id: string): Promise<void> {
    await this.#tools.store.remove(id);
    await this.#changed();
  }

  /** A refused entry is tried once more. */
  async sendAgain(id: string): Promise<void> {
    await this.#tools.store.change(id, { state: "waiting", line: "" });
    await this.#changed();
  }

  /** One attempt to send all that waits and to read the log. True when the server answered. Never rejects. */
  flush(): Promise<boolean> {
    this.#sending ??= this.#flush().finally(() => {
      this.#sending = null;
    });
    return this.#sending;
  }

  async #flush(): Promise<boolean> {
    let trouble: string | null = null;
    try {
      await this.#tools.alone(async () => {
        trouble = await this.#sendAll();
      });
      const log = await this.#tools.readLog(this.#trialId);
      await this.#tools.store.keepLog(this.#trialId, log.entries);
      if (log.old) trouble ??= words.bench.noAnswer;
    } catch (error) {
      trouble = lineOf(error);
    }
    await this.#changed().catch((error: unknown) => {
      trouble = lineOf(error);
    });
    this.#set({ trouble });
    return trouble === null;
  }

  /**
   * Ticks go before photographs, which may take long, and so do those that were made while one was sent. Returns why some
   * of it has to wait; throws when nobody answers.
   */
  async #sendAll(): Promise<string | null> {
    const tried = new Set<string>();
    const absent = new Map<string, string>();
    for (;;) {
      const all = await this.#tools.store.all();
      const waiting = all.filter((i) => i.state === "waiting" && !tried.has(i.id) && !absent.has(i.trialId));
      const plain = waiting.filter((i) => !i.withPhoto || i.entry.photo !== null).sort(byTime);
      const [first] = plain.length > 0 ? plain : waiting.sort(byTime);
      if (first === undefined) return [...absent.values()][0] ?? null;
      const { trialId } = first;
      const own = plain.filter((i) => i.trialId === trialId).slice(0, BATCH);
      // Whatever the server says or leaves out, nothing is sent twice in one attempt.
      for (const { id } of own.length > 0 ? own : [first]) tried.add(id);
      try {
        if (own.length === 0) await this.#sendPhoto(first);
        else {
          const entries = own.map((i) => i.entry);
          await this.#sendBatch(trialId, entries);
        }
      } catch (error) {
        // A trial that this server has not keeps no other waiting.
        if (!(error instanceof Refused) || error.status !== 404) throw error;
        absent.set(trialId, error.message);
      }
    }
  }

  async #sendBatch(trialId: string, entries: readonly RunEntry[]): Promise<void> {
    const { store, send } = this.#tools;
    try {
      const { accepted, refused } = await send(trialId, entries);
      for (const id of accepted) await store.change(id, { state: "sent" });
      for (const { id, error } of refused) if (id !== null) await store.change(id, { state: "refused", line: error });
    } catch (error) {
      if (!ofContent(error)) throw error;
      const [only] = entries;
      if (entries.length === 1 && only) await store.change(only.id, { state: "refused", line: error.message });
      else for (const entry of entries) await this.#sendBatch(trialId, [entry]);
    }
  }

  async #sendPhoto(item: QueuedEntry): Promise<void> {
    const { store, putPhoto } = this.#tools;
    const photo = await store.photo(item.id);
    if (photo === null) return store.change(item.id, { state: "refused", line: words.bench.photoLost });
    try {
      const { sha256 } = await putPhoto(photo);
      const entry = { ...item.entry, photo: sha256 };
      await store.change(item.id, { entry });
      await this.#sendBatch(item.trialId, [entry]);
    } catch (error) {
      if (!ofContent(error)) throw error;
      await store.change(item.id, { state: "refused", line: error.message });
    }
  }

  async #changed(): Promise<void> {
    await this.reload();
    this.#tools.tell();
  }

  #set(change: Partial<QueueState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#listeners) listener();
  }
}
