import { useEffect, useRef, useState } from "react";
import type { Setting } from "#terms";
import { latestWins } from "../../live/latest.ts";
import type { Ask, SettingAnswer } from "../../live/protocol.ts";
import { pictureWorker, quickWorker, type WorkerClient } from "../../live/worker-client.ts";

/** Few draws answer while a control moves; the full number follows once it rests. */
const QUICK_DRAWS = 12;
const FULL_DRAWS = 64;
const REST_MS = 250;

export interface Live {
  readonly answer: SettingAnswer | null;
  readonly draws: number;
  readonly state: "computing" | "first" | "done" | "failed";
  readonly line: string | null;
  /** the question that the answer belongs to, and the last that was put; equal when the page shows what is set */
  readonly answered: number;
  readonly asked: number;
}

interface Question extends Ask<"predict"> {
  readonly number: number;
}

type Asker = ReturnType<typeof latestWins<Question, SettingAnswer>>;

const nothing: Live = {
  answer: null,
  draws: 0,
  state: "computing",
  line: null,
  answered: 0,
  asked: 0,
};

/**
 * Prediction of a setting, live: the newest question wins, the last one is answered with all draws.
 * `partKey` tells one description of the part from another; nothing is asked until `ready`.
 */
export function useLive(ready: boolean, partKey: string, partId: string, setupId: string, setting: Setting): Live {
  const [live, setLive] = useState<Live>(nothing);
  const askers = useRef<Record<"quick" | "full", Asker> | null>(null);
  const number = useRef(0);
  useEffect(() => {
    const asker = (worker: WorkerClient): Asker =>
      latestWins<Question, SettingAnswer>(
        ({ number: _, ...ask }) => worker.ask("predict", ask),
        (answer, ask) =>
          setLive((now) =>
            // A full answer that comes when the hand has moved on is of no use any more.
            ask.drawCount === FULL_DRAWS && ask.number !== number.current
              ? now
              : {
                  answer,
                  draws: ask.drawCount,
                  state: ask.drawCount === FULL_DRAWS ? "done" : "first",
                  line: null,
                  answered: ask.number,
                  asked: number.current,
                },
          ),
        (error, ask) =>
          setLive((now) => ({
            ...now,
            state: "failed",
            line: error.message,
            answered: ask.number,
            asked: number.current,
          })),
      );
    // The full number has a worker of its own: a hand that moves again does not wait behind it.
    const made = { quick: asker(quickWorker), full: asker(pictureWorker) };
    askers.current = made;
    return () => {
      made.quick.stop();
      made.full.stop();
    };
  }, []);
  const key = JSON.stringify([partKey, setupId, setting]);
  useEffect(() => {
    if (!ready) return;
    const mine = ++number.current;
    const ask = { partId, setupId, setting, number: mine };
    askers.current?.quick.ask({ ...ask, drawCount: QUICK_DRAWS });
    const timer = setTimeout(() => askers.current?.full.ask({ ...ask, drawCount: FULL_DRAWS }), REST_MS);
    return () => clearTimeout(timer);
  }, [ready, key]);
  return { ...live, asked: number.current };
}
