import { useEffect, useRef, useState } from "react";
import type { Setting } from "#terms";
import { latestWins } from "../../live/latest.ts";
import type { Ask, SettingAnswer } from "../../live/protocol.ts";
import { pictureWorker, quickWorker, type WorkerClient } from "../../live/worker-client.ts";
import { about, FULL_DRAWS, type Live, nothing, QUICK_DRAWS, withAnswer, withFailure } from "./live-state.ts";

const REST_MS = 250;

export type { Live } from "./live-state.ts";

interface Question extends Ask<"predict"> {
  readonly number: number;
}

type Asker = ReturnType<typeof latestWins<Question, SettingAnswer>>;

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
        (answer, ask) => setLive((now) => withAnswer(now, answer, ask, number.current)),
        (error, ask) => setLive((now) => withFailure(now, error, ask, number.current)),
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
  return { ...about(live, setupId), asked: number.current };
}
