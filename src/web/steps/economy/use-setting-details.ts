import { useEffect, useRef, useState } from "react";
import type { ShopFile } from "#contract";
import type { SettingDetails } from "#workflows";
import { latestWins } from "../../live/latest.ts";
import type { Ask } from "../../live/protocol.ts";
import { quickWorker } from "../../live/worker-client.ts";
import type { SettingChoice } from "./setting-choices.ts";

export interface LiveDetails {
  readonly details: SettingDetails | null;
  readonly line: string | null;
}

/** Safety and cost of a setting, worked out off the page's own thread; the newest question wins. */
export function useSettingDetails(
  ready: boolean,
  partKey: string,
  partId: string,
  choice: SettingChoice | null,
  shop: ShopFile,
): LiveDetails {
  const [live, setLive] = useState<LiveDetails>({ details: null, line: null });
  const asker = useRef<ReturnType<typeof latestWins<Ask<"details">, SettingDetails>> | null>(null);
  useEffect(() => {
    const made = latestWins<Ask<"details">, SettingDetails>(
      (ask) => quickWorker.ask("details", ask),
      (details) => setLive({ details, line: null }),
      (error) => setLive((was) => ({ ...was, line: error.message })),
    );
    asker.current = made;
    return () => made.stop();
  }, []);
  const key = JSON.stringify([partKey, choice?.setupId, choice?.setting, shop]);
  useEffect(() => {
    if (!ready || choice === null) return;
    const { setupId, setting } = choice;
    asker.current?.ask({ partId, setupId, setting, shop });
  }, [ready, key]);
  return live;
}
