import { useEffect, useRef, useState } from "react";
import type { Answer, Ask, QuestionKind } from "../../live/protocol.ts";
import { latestWins } from "../../live/latest.ts";
import { restWorker, type WorkerClient } from "../../live/worker-client.ts";

export interface Rested<K extends QuestionKind> {
  readonly answer: Answer<K> | null;
  /** whether the answer is of what is asked now */
  readonly current: boolean;
  readonly line: string | null;
}

/**
 * The answer to what is asked once it has held still for `wait` ms; meanwhile the last answer stays. `key` names the
 * question; null asks nothing.
 */
export function useRested<K extends QuestionKind>(
  kind: K,
  ask: Ask<K> | null,
  key: string | null,
  wait: number,
  worker: WorkerClient = restWorker,
): Rested<K> {
  const [state, setState] = useState<{ key: string; answer: Answer<K> | null; line: string | null }>({
    key: "",
    answer: null,
    line: null,
  });
  const asker = useRef<ReturnType<typeof latestWins<{ key: string; ask: Ask<K> }, Answer<K>>> | null>(null);
  useEffect(() => {
    const made = latestWins<{ key: string; ask: Ask<K> }, Answer<K>>(
      (one) => worker.ask(kind, one.ask),
      (answer, one) => setState({ key: one.key, answer, line: null }),
      (error, one) => setState((now) => ({ ...now, key: one.key, line: error.message })),
    );
    asker.current = made;
    return () => made.stop();
  }, [kind, worker]);
  useEffect(() => {
    if (ask === null || key === null) return;
    const timer = setTimeout(() => asker.current?.ask({ key, ask }), wait);
    return () => clearTimeout(timer);
  }, [key, wait]);
  return { answer: state.answer, current: state.key === key && state.line === null, line: state.line };
}
