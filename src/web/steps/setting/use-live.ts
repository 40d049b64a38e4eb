import { useEffect, useRef, useState } from "react";
import type { Setting } from "#terms";
import { latestWins } from "../../live/latest.ts";
import type { Ask, SettingAnswer } from "../../live/protocol.ts";
import { quickWorker } from "../../live/worker-client.ts";

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
  const asker = useRef<ReturnType<typeof latestWins<Question, SettingAnswer>> | null>(null);
  const number = useRef(0);
  useEffect(() => {
    const made = latestWins<Question, SettingAnswer>(
      ({ number: _, ...ask }) => quickWorker.ask("predict", ask),
      (answer, ask) =>
        setLive({
          answer,
          draws: ask.drawCount,
          state: ask.drawCount === FULL_DRAWS ? "done" : "first",
          line: null,
          answered: ask.number,
          asked: number.current,
        }),
      (error, ask) =>
        setLive((now) => ({
          ...now,
          state: "failed",
          line: error.message,
          answered: ask.number,
          asked: number.current,
        })),
    );
    asker.current = made;
    return () => made.stop();
  }, []);
  const key = JSON.stringify([partKey, setupId, setting]);
  useEffect(() => {
    if (!ready) return;
    const mine = ++number.current;
    const ask = { partId, setupId, setting, number: mine };
    asker.current?.ask({ ...ask, drawCount: QUICK_DRAWS });
    const timer = setTimeout(() => asker.current?.ask({ ...ask, drawCount: FULL_DRAWS }), REST_MS);
    return () => clearTimeout(timer);
  }, [ready, key]);
  return { ...live, asked: number.current };
}
