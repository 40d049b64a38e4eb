import { InvalidInput } from "#units";
import type { PartTask } from "#workflows";

/** One task on its way to a thread, and what comes back. Plain data: both are cloned between threads. */
export interface ToThread {
  readonly id: number;
  readonly task: PartTask;
}

export type FromThread =
  | { readonly id: number; readonly result: unknown }
  | { readonly id: number; readonly refused: Refusal }
  | { readonly id: number; readonly fault: string };

interface Refusal {
  readonly field: string;
  readonly value: string;
  readonly unit: string;
  readonly rule: string;
  readonly where: string | null;
}

/** An error as plain data: a refusal keeps its parts, anything else its message. */
export function failureOf(id: number, error: unknown): FromThread {
  if (error instanceof InvalidInput) {
    const { field, value, unit, rule, where } = error;
    return { id, refused: { field, value, unit, rule, where } };
  }
  return { id, fault: error instanceof Error ? error.message : String(error) };
}

/** The error again on this side. */
export function errorOf(message: Exclude<FromThread, { readonly result: unknown }>): Error {
  if ("fault" in message) return new Error(message.fault);
  const { field, value, unit, rule, where } = message.refused;
  return new InvalidInput(field, value, unit, rule, where);
}
