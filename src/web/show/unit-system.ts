import { useSyncExternalStore } from "react";

/** Units that the pages show. Fields, files and papers keep the units that they name. */
export type UnitSystem = "metric" | "us";

/** What this browser keeps; tests run where there is none. */
interface Kept {
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
}
const kept = (): Kept | undefined => (globalThis as { localStorage?: Kept }).localStorage;

const key = "scourlight.units";
const listeners = new Set<() => void>();
let now: UnitSystem = read();

function read(): UnitSystem {
  try {
    return kept()?.getItem(key) === "us" ? "us" : "metric";
  } catch {
    return "metric";
  }
}

export const unitSystem = (): UnitSystem => now;

export function setUnitSystem(next: UnitSystem): void {
  now = next;
  try {
    kept()?.setItem(key, next);
  } catch {
    // A browser that keeps nothing still shows what was asked for until it is closed.
  }
  for (const listener of listeners) listener();
}

export function useUnitSystem(): UnitSystem {
  return useSyncExternalStore((listener) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  }, unitSystem);
}
