import { useEffect, useSyncExternalStore } from "react";
import { photoUrl } from "../api/photographs.ts";
import { Cancelled } from "../live/cancelled.ts";
import { photoReader } from "./photo-reader.ts";
import type { FlatAsk } from "./protocol.ts";

/** Address of a photograph laid flat; `null` while it is being made, "none" where it cannot be. */
export type FlatState = string | null | "none";

const known = new Map<string, FlatState>();
const listeners = new Set<() => void>();
const keyOf = (sha256: string, printScale: number): string => `${sha256} ${printScale}`;

function listen(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

function put(key: string, state: FlatState): void {
  known.set(key, state);
  for (const listener of listeners) listener();
}

/** Notes a picture that was made on the way. */
export function noteFlat(sha256: string, printScale: number, file: Blob): void {
  put(keyOf(sha256, printScale), URL.createObjectURL(file));
}

/** Notes that a kept picture is this photograph laid flat. */
export function noteKeptFlat(sha256: string, printScale: number, flat: string): void {
  const key = keyOf(sha256, printScale);
  if (!known.has(key)) known.set(key, photoUrl(flat));
}

/** Stopped before they were made: asked for once more when they are looked at again. */
const stopped = new Set<string>();

function make(ask: FlatAsk): void {
  const key = keyOf(ask.photo.sha256, ask.printScale);
  if (known.has(key) && !stopped.delete(key)) return;
  put(key, null);
  photoReader.flat(ask).then(
    (file) => put(key, file === null ? "none" : URL.createObjectURL(file)),
    (error: unknown) => {
      if (error instanceof Cancelled) stopped.add(key);
      put(key, "none");
    },
  );
}

/** A photograph of a coupon laid flat; made by the worker where it is not there yet. Nothing is made of a null question. */
export function useFlat(ask: FlatAsk | null): FlatState {
  const key = ask === null ? "" : keyOf(ask.photo.sha256, ask.printScale);
  const state = useSyncExternalStore(listen, () => known.get(key) ?? null);
  useEffect(() => {
    if (ask !== null) make(ask);
  }, [key]);
  return state;
}
