import { useEffect, useRef, useState } from "react";
import type { Setting } from "#terms";
import { latestWins } from "../../live/latest.ts";
import type { SettingAnswer } from "../../live/protocol.ts";
import { quickWorker } from "../../live/worker-client.ts";

interface Asked {
  readonly partId: string;
  readonly setupId: string;
  readonly setting: Setting;
  readonly drawCount: number;
}

/** Few draws answer while a control moves; the full number follows once it rests. */
const QUICK_DRAWS = 12;
const FULL_DRAWS = 64;
const REST_MS = 250;

export interface Live {
  readonly answer: SettingAnswer | null;
  readonly draws: number;
  readonly state: "computing" | "first" | "done" | "failed";
  readonly line: string | null;
}

/** Prediction of a setting, live: the newest question wins, the last one is answered with all draws. */
export function usePrediction(
  ready: boolean,
  partKey: string,
  partId: string,
  setupId: string,
  setting: Setting,
): Live {
  const [live, setLive] = useState<Live>({ answer: null, draws: 0, state: "computing", line: null });
  const asker = useRef<ReturnType<typeof latestWins<Asked, SettingAnswer>> | null>(null);
  useEffect(() => {
    const made = latestWins<Asked, SettingAnswer>(
      (ask) => quickWorker.ask("predict", ask),
      (answer, ask) =>
        setLive({ answer, draws: ask.drawCount, state: ask.drawCount === FULL_DRAWS ? "done" : "first", line: null }),
      (error) => setLive((now) => ({ ...now, state: "failed", line: error.message })),
    );
    asker.current = made;
    return () => made.stop();
  }, []);
  const key = JSON.stringify([partKey, setupId, setting]);
  useEffect(() => {
    if (!ready) return;
    const ask = { partId, setupId, setting };
    asker.current?.ask({ ...ask, drawCount: QUICK_DRAWS });
    const timer = setTimeout(() => asker.current?.ask({ ...ask, drawCount: FULL_DRAWS }), REST_MS);
    return () => clearTimeout(timer);
  }, [ready, key]);
  return live;
}
