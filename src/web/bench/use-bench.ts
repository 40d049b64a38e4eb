import { useCallback, useEffect, useState, useSyncExternalStore } from "react";
import { words } from "../words/index.ts";
import type { QueueState } from "./bench-queue.ts";
import type { QueuedPhoto } from "./bench-store.ts";
import { type EntryChange, makeEntry } from "./make-entry.ts";
import { type OpenBench, openBench } from "./open-bench.ts";

export interface Bench {
  readonly state: QueueState;
  /** Notes something; resolves to false where this phone could not keep it, which `failure` then says. */
  readonly note: (change: EntryChange, photo?: QueuedPhoto) => Promise<boolean>;
  readonly failure: string | null;
  readonly fail: (line: string | null) => void;
  readonly sendNow: () => void;
  readonly sendAgain: (id: string) => void;
  readonly dismiss: (id: string) => void;
}

const closed: QueueState = { opened: false, entries: [], waiting: [], refused: [], trouble: null, lasting: true };
const lineOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** The run log of a trial as this phone has it, and the ways to add to it. `by`: who is at the machine. */
export function useBench(trialId: string, by: string): Bench {
  const [bench, setBench] = useState<OpenBench | null>(null);
  const [failure, fail] = useState<string | null>(null);
  useEffect(() => {
    let gone = false;
    let close: () => void = () => undefined;
    openBench(trialId).then(
      (opened) => {
        close = opened.close;
        if (gone) close();
        else setBench(opened);
      },
      (error: unknown) => fail(lineOf(error)),
    );
    return () => {
      gone = true;
      close();
      setBench(null);
    };
  }, [trialId]);
  const subscribe = useCallback(
    (listener: () => void) => bench?.queue.subscribe(listener) ?? (() => undefined),
    [bench],
  );
  const state = useSyncExternalStore(subscribe, () => bench?.queue.state() ?? closed);
  const act = (work: (opened: OpenBench) => Promise<void>): void => {
    if (bench !== null) work(bench).then(bench.now, (error: unknown) => fail(words.bench.state.notKept(lineOf(error))));
  };
  return {
    state,
    failure,
    fail,
    note: async (change, photo) => {
      if (bench === null) return false;
      try {
        await bench.queue.add(makeEntry(by, change), photo);
        fail(null);
        bench.now();
        return true;
      } catch (error) {
        fail(words.bench.state.notKept(lineOf(error)));
        return false;
      }
    },
    sendNow: () => bench?.now(),
    sendAgain: (id) => act(({ queue }) => queue.sendAgain(id)),
    dismiss: (id) => act(({ queue }) => queue.dismiss(id)),
  };
}
