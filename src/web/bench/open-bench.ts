import { readRunLog, sendRunEntries } from "../api/run-log.ts";
import { putPhoto } from "../api/photographs.ts";
import { Refused } from "../api/client.ts";
import { words } from "../words/index.ts";
import { BenchQueue } from "./bench-queue.ts";
import { type BenchStore, memoryStore } from "./bench-store.ts";
import { idbStore } from "./idb-store.ts";
import { Resend } from "./resend.ts";

const CHANNEL = "scourlight-bench";
/** s between two looks at what other phones ticked */
const REST = 15;

let kept: Promise<BenchStore> | null = null;
/** One connection for all lists of this page; where the browser allows no database the page is all there is. */
const storeOfPage = (): Promise<BenchStore> => {
  kept ??= idbStore().catch(() => memoryStore());
  return kept;
};

/** Runs the work unless another page of this browser is at it. Without locks it runs always: ids keep it harmless. */
async function alone(work: () => Promise<void>): Promise<boolean> {
  if (!("locks" in navigator)) {
    await work();
    return true;
  }
  return navigator.locks.request("scourlight-bench-send", { ifAvailable: true }, async (lock) => {
    if (lock === null) return false;
    await work();
    return true;
  });
}

/** s that an answer may take, and a photograph over a weak radio: as long as the server listens to one */
const PATIENCE = { answer: 20, photo: 170 };

/** A network that lets everything hang is a lost one. */
async function inTime<T>(seconds: number, ask: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const signal = AbortSignal.timeout(1000 * seconds);
  try {
    return await ask(signal);
  } catch (error) {
    throw signal.aborted ? new Refused(0, words.bench.notReached) : error;
  }
}

export interface OpenBench {
  readonly queue: BenchQueue;
  /** tries to send now */
  readonly now: () => void;
  readonly close: () => void;
}

/** The queue of a trial on this phone, sending whenever there is a chance, until it is closed. */
export async function openBench(trialId: string): Promise<OpenBench> {
  const store = await storeOfPage();
  // The browser is asked not to make room at the cost of what has not been sent.
  void navigator.storage?.persist?.().catch(() => false);
  const channel = new BroadcastChannel(CHANNEL);
  const queue = new BenchQueue(trialId, {
    store,
    send: (trial, entries) => inTime(PATIENCE.answer, (signal) => sendRunEntries(trial, entries, signal)),
    putPhoto: ({ bytes, type }) => inTime(PATIENCE.photo, (signal) => putPhoto(new Blob([bytes], { type }), signal)),
    readLog: (trial) => inTime(PATIENCE.answer, (signal) => readRunLog(trial, signal)),
    alone,
    tell: () => channel.postMessage(trialId),
  });
  channel.onmessage = () => void queue.reload().catch(() => undefined);
  await queue.reload().catch((error: unknown) => {
    channel.close();
    throw error;
  });
  const resend = new Resend({
    attempt: () => queue.flush(),
    later: (seconds, call) => {
      const timer = setTimeout(call, 1000 * seconds);
      return () => clearTimeout(timer);
    },
    rest: REST,
  });
  const seen = () => {
    if (document.visibilityState === "visible") resend.now();
  };
  addEventListener("online", resend.now);
  addEventListener("pageshow", seen);
  document.addEventListener("visibilitychange", seen);
  resend.now();
  return {
    queue,
    now: resend.now,
    close: () => {
      resend.stop();
      channel.close();
      removeEventListener("online", resend.now);
      removeEventListener("pageshow", seen);
      document.removeEventListener("visibilitychange", seen);
    },
  };
}
