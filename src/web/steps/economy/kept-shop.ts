import type { Typed } from "./shop-text.ts";

interface Kept {
  readonly version: number;
  readonly typed: Typed;
}

const keyOf = (enquiryId: string): string => `scourlight.shop.${enquiryId}`;

/** Keeps what is typed in this browser until the server has it. Storage may be full or forbidden. */
export function keepShop(enquiryId: string, version: number, typed: Typed): void {
  try {
    localStorage.setItem(keyOf(enquiryId), JSON.stringify({ version, typed } satisfies Kept));
  } catch {
    return;
  }
}

export function readShop(enquiryId: string): Kept | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(keyOf(enquiryId)) ?? "null");
    if (typeof kept !== "object" || kept === null || !("version" in kept) || !("typed" in kept)) return null;
    const { version, typed } = kept;
    if (typeof version !== "number" || typeof typed !== "object" || typed === null) return null;
    const texts = Object.entries(typed).filter((entry): entry is [string, string] => typeof entry[1] === "string");
    return { version, typed: Object.fromEntries(texts) };
  } catch {
    return null;
  }
}

export function dropShop(enquiryId: string): void {
  try {
    localStorage.removeItem(keyOf(enquiryId));
  } catch {
    return;
  }
}
