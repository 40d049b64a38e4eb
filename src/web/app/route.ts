import { useSyncExternalStore } from "react";
import { type Place, parseHash } from "./place.ts";

export { linkTo, type Place, type StepId, stepIds } from "./place.ts";

export function goTo(hash: string, replace = false): void {
  if (replace) {
    history.replaceState(null, "", hash);
    dispatchEvent(new HashChangeEvent("hashchange"));
  } else location.hash = hash;
}

function subscribe(listener: () => void): () => void {
  addEventListener("hashchange", listener);
  return () => removeEventListener("hashchange", listener);
}

let last = { hash: "\u0000", place: parseHash("") };

function current(): Place {
  if (last.hash !== location.hash) last = { hash: location.hash, place: parseHash(location.hash) };
  return last.place;
}

export function usePlace(): Place {
  return useSyncExternalStore(subscribe, current);
}
