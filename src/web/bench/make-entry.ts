import type { RunEntry } from "#terms";

/** Random uuid, version 4. `crypto.randomUUID` is missing where a phone reaches the server without TLS. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((b) => b.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

export type EntryChange = Partial<Omit<RunEntry, "id" | "at" | "by">> & Pick<RunEntry, "kind">;

/** An entry made now by somebody. */
export function makeEntry(by: string, change: EntryChange): RunEntry {
  const none = { patch: null, coupon: null, note: "", plateTemperature: null, photo: null, of: null };
  return { ...none, ...change, id: newId(), at: new Date().toISOString(), by };
}
