import { useCallback, useEffect, useRef, useState, useSyncExternalStore } from "react";
import { Cancelled } from "./cancelled.ts";
import { longWorker } from "./worker-client.ts";
import type { Answer, Ask, QuestionKind } from "./protocol.ts";

export interface LongWork<K extends QuestionKind> {
  readonly state: "idle" | "working" | "done" | "failed" | "cancelled";
  readonly answer: Answer<K> | null;
  readonly line: string | null;
  /** share done, null when the work reports none */
  readonly share: number | null;
  readonly start: (ask: Ask<K>) => void;
  readonly cancel: () => void;
}

const kept = new Map<string, unknown>();
const listeners = new Set<() => void>();

function listen(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Forgets every answer: they were worked out with other library files. */
export function forgetLongWork(): void {
  kept.clear();
  for (const listener of listeners) listener();
}

/** The answer of long work under this key, null while there is none. */
export function useKeptAnswer<K extends QuestionKind>(kind: K, key: string): Answer<K> | null {
  return useSyncExternalStore(listen, () => (kept.get(`${kind}:${key}`) as Answer<K> | undefined) ?? null);
}

/** One piece of long work with progress and cancel. Answers are kept for as long as `key` stays the same. */
export function useLongWork<K extends QuestionKind>(kind: K, key: string): LongWork<K> {
  const fullKey = `${kind}:${key}`;
  const [state, setState] = useState<LongWork<K>["state"]>(kept.has(fullKey) ? "done" : "idle");
  const [line, setLine] = useState<string | null>(null);
  const [share, setShare] = useState<number | null>(null);
  const [answer, setAnswer] = useState<Answer<K> | null>((kept.get(fullKey) as Answer<K>) ?? null);
  const run = useRef(0);

  useEffect(() => {
    run.current++;
    const known = kept.get(fullKey) as Answer<K> | undefined;
    setAnswer(known ?? null);
    setState(known ? "done" : "idle");
    setLine(null);
  }, [fullKey]);

  const start = useCallback(
    (ask: Ask<K>) => {
      const mine = ++run.current;
      setState("working");
      setLine(null);
      setShare(null);
      longWorker
        .ask(kind, ask, (done, total) => mine === run.current && setShare(total > 0 ? done / total : null))
        .then((result) => {
          kept.set(fullKey, result);
          for (const listener of listeners) listener();
          if (mine !== run.current) return;
          setAnswer(result);
          setState("done");
        })
        .catch((error: Error) => {
          if (mine !== run.current) return;
          setState(error instanceof Cancelled ? "cancelled" : "failed");
          setLine(error instanceof Cancelled ? null : error.message);
        });
    },
    [kind, fullKey],
  );

  const cancel = useCallback(() => longWorker.cancel(), []);
  return { state, answer, line, share, start, cancel };
}
