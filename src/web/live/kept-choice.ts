import type { Setting } from "#terms";

/** What a person last worked with on one part: kept in this browser so that a reload loses nothing. */
export interface WorkingSetting {
  readonly setupId: string;
  readonly setting: Setting;
}

const keyOf = (enquiryId: string, partId: string): string => `scourlight.setting.${enquiryId}.${partId}`;

export function readWorkingSetting(enquiryId: string, partId: string): WorkingSetting | null {
  return read(keyOf(enquiryId, partId));
}

/** null takes it back to none. */
export function keepWorkingSetting(enquiryId: string, partId: string, working: WorkingSetting | null): void {
  keep(keyOf(enquiryId, partId), working);
}

function read(key: string): WorkingSetting | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(key) ?? "null");
    return typeof kept === "object" && kept !== null && "setupId" in kept && "setting" in kept
      ? (kept as WorkingSetting)
      : null;
  } catch {
    return null;
  }
}

function keep(key: string, working: WorkingSetting | null): void {
  try {
    localStorage.setItem(key, JSON.stringify(working));
  } catch {
    return;
  }
}

const secondKey = (enquiryId: string, partId: string): string => `${keyOf(enquiryId, partId)}.second`;

/** The laser beside the first, or null where one was looked at alone. */
export function readSecond(enquiryId: string, partId: string): WorkingSetting | null {
  return read(secondKey(enquiryId, partId));
}

export function keepSecond(enquiryId: string, partId: string, working: WorkingSetting | null): void {
  keep(secondKey(enquiryId, partId), working);
}
