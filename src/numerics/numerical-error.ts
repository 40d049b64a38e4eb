/** A computation that cannot be carried out: no convergence, a singular matrix, an argument outside its range. */
export class NumericalError extends Error {
  constructor(message: string) {
    super(message);
    this.name = "NumericalError";
  }
}

/** Throws `NumericalError` unless the condition holds. */
export function demand(condition: boolean, message: string): asserts condition {
  if (!condition) throw new NumericalError(message);
}
