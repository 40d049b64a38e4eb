import { useSyncExternalStore } from "react";

/** Units that the pages show. Fields, files and papers keep the units that they name. */
export type UnitSystem = "metric" | "us";

const key = "scourlight.units";
const listeners = new Set<() => void>();
let now: UnitSystem = read();

function read(): UnitSystem {
  try {
    return localStorage.getItem(key) === "us" ? "us" : "metric";
  } catch {
    return "metric";
  }
}

export const unitSystem = (): UnitSystem => now;

export function setUnitSystem(next: UnitSystem): void {
  now = next;
  try {
    localStorage.setItem(key, next);
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
