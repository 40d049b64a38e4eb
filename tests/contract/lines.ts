import { InvalidInputs } from "#contract";
import { InvalidInput } from "#units";

/** Every line that a call refuses with; fails on any other kind of error and on none. */
export function linesOf(call: () => unknown): string[] {
  try {
    call();
  } catch (error) {
    if (error instanceof InvalidInputs) return [...error.all];
    if (error instanceof InvalidInput) return [error.message];
    throw error;
  }
  throw new Error("nothing was refused");
}
