import { useEffect, useState } from "react";
import { benchPaths } from "../api/run-log.ts";
import { type Keeping, keepPage } from "./keep-page.ts";

/** Has this browser keep the list of a trial once `whole` says that all of it is loaded, and again when the network comes back. */
export function useKeeping(trialId: string, whole: boolean): Keeping {
  const [keeping, setKeeping] = useState<Keeping>("starting");
  useEffect(() => {
    if (!whole) return;
    let gone = false;
    const keep = async () => {
      const said = await keepPage(benchPaths(trialId));
      if (!gone) setKeeping(said);
    };
    void keep();
    addEventListener("online", keep);
    return () => {
      gone = true;
      removeEventListener("online", keep);
    };
  }, [trialId, whole]);
  return keeping;
}
