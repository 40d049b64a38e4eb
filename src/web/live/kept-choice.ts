import { useCallback, useState } from "react";
import type { Setting } from "#terms";

/** What a person last worked with on one part: kept in this browser so that a reload loses nothing. */
export interface WorkingSetting {
  readonly setupId: string;
  readonly setting: Setting;
}

const keyOf = (enquiryId: string, partId: string): string => `scourlight.setting.${enquiryId}.${partId}`;

export function readWorkingSetting(enquiryId: string, partId: string): WorkingSetting | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(keyOf(enquiryId, partId)) ?? "null");
    return typeof kept === "object" && kept !== null && "setupId" in kept && "setting" in kept
      ? (kept as WorkingSetting)
      : null;
  } catch {
    return null;
  }
}

export function keepWorkingSetting(enquiryId: string, partId: string, working: WorkingSetting): void {
  try {
    localStorage.setItem(keyOf(enquiryId, partId), JSON.stringify(working));
  } catch {
    return;
  }
}

export function useWorkingSetting(
  enquiryId: string,
  partId: string,
  first: () => WorkingSetting,
): [WorkingSetting, (next: WorkingSetting) => void] {
  const [working, setWorking] = useState<WorkingSetting>(() => readWorkingSetting(enquiryId, partId) ?? first());
  const set = useCallback(
    (next: WorkingSetting) => {
      setWorking(next);
      keepWorkingSetting(enquiryId, partId, next);
    },
    [enquiryId, partId],
  );
  return [working, set];
}
