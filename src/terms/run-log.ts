import type { Kelvin } from "./quantities.ts";

/** What an entry made at the machine says. A tick is one of the first three. */
export type RunEntryKind = "burned" | "skipped" | "repeated" | "note" | "photo" | "temperature" | "undo-of";

/**
 * One thing that was done at the machine. Entries are added and never changed; one that was made in error is taken back
 * by another. Where and in which order they arrive does not matter: the id tells them apart, the instant orders them.
 */
export interface RunEntry {
  /** uuid, made where the entry was made */
  readonly id: string;
  readonly kind: RunEntryKind;
  /** null for what concerns a coupon or the whole trial */
  readonly patch: number | null;
  /** coupon that a photograph shows; null elsewhere */
  readonly coupon: number | null;
  /** ISO 8601 in UTC with milliseconds, by the clock of the phone */
  readonly at: string;
  /** who made it; "" where nobody gave a name */
  readonly by: string;
  /** the reason of a patch that was skipped, or what a person has to say */
  readonly note: string;
  /** K, plate before the patch; null where it was not measured */
  readonly plateTemperature: Kelvin | null;
  /** sha256 of the photograph; null elsewhere */
  readonly photo: string | null;
  /** id of the entry that is taken back; null elsewhere */
  readonly of: string | null;
}
