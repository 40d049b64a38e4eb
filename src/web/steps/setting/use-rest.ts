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

interface Question<K extends QuestionKind> {
  readonly key: string;
  readonly subject: string;
  readonly ask: Ask<K>;
}

interface State<K extends QuestionKind> {
  readonly key: string;
  readonly subject: string;
  readonly answer: Answer<K> | null;
  readonly line: string | null;
}

/**
 * The answer to what is asked once it has held still for `wait` ms; meanwhile the last answer stays. `key` names the
 * question; null asks nothing. `subject` is what it is about: an answer about another is not kept for it.
 */
export function useRested<K extends QuestionKind>(
  kind: K,
  ask: Ask<K> | null,
  key: string | null,
  subject: string,
  wait: number,
  worker: WorkerClient = restWorker,
): Rested<K> {
  const [state, setState] = useState<State<K>>({ key: "", subject: "", answer: null, line: null });
  const asker = useRef<ReturnType<typeof latestWins<Question<K>, Answer<K>>> | null>(null);
  useEffect(() => {
    const made = latestWins<Question<K>, Answer<K>>(
      (one) => worker.ask(kind, one.ask),
      (answer, one) => setState({ key: one.key, subject: one.subject, answer, line: null }),
      (error, one) =>
        setState((now) => ({
          key: one.key,
          subject: one.subject,
          answer: now.subject === one.subject ? now.answer : null,
          line: error.message,
        })),
    );
    asker.current = made;
    return () => made.stop();
  }, [kind, worker]);
  useEffect(() => {
    if (ask === null || key === null) return;
    const timer = setTimeout(() => asker.current?.ask({ key, subject, ask }), wait);
    return () => clearTimeout(timer);
  }, [key, wait]);
  if (state.subject !== subject) return { answer: null, current: false, line: null };
  return { answer: state.answer, current: state.key === key && state.line === null, line: state.line };
}
