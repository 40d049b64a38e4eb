import { useCallback, useRef, useState } from "react";
import type { LaserSetup, Setting } from "#terms";
import { restWorker } from "../../live/worker-client.ts";
import { words } from "../../words/index.ts";

/** As many versions of the physics as the comparison of all set-ups takes. */
const DRAWS = 64;

interface Finding {
  readonly working: boolean;
  readonly line: string | null;
}

/** The search for the best setting of one laser; `onFound` gets it unless another search was begun meanwhile. */
export function useBest(partId: string, onFound: (setup: LaserSetup, setting: Setting) => void) {
  const [state, setState] = useState<Finding>({ working: false, line: null });
  const run = useRef(0);
  const found = useRef(onFound);
  found.current = onFound;
  const find = useCallback(
    (setup: LaserSetup) => {
      const mine = ++run.current;
      setState({ working: true, line: null });
      restWorker.ask("best", { partId, setupId: setup.id, drawCount: DRAWS }).then(
        (setting) => {
          if (mine !== run.current) return;
          setState({ working: false, line: setting === null ? words.live.bestNone : null });
          if (setting !== null) found.current(setup, setting);
        },
        (error: Error) => mine === run.current && setState({ working: false, line: error.message }),
      );
    },
    [partId],
  );
  return { state, find };
}
