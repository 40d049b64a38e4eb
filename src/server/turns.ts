import { TooBusy } from "./errors.ts";

/** Runs work, some pieces at a time and the others in the order in which they came. */
export type Turns = <T>(work: () => Promise<T>) => Promise<T>;

/**
 * `most` pieces of work run at a time and `waiting` more may wait; who comes after them is told so at once.
 * Throws TooBusy with `line`.
 */
export function takeTurns(most: number, waiting: number, line: string): Turns {
  const queue: (() => void)[] = [];
  let running = 0;
  return async (work) => {
    if (running >= most) {
      if (queue.length >= waiting) throw new TooBusy(line);
      await new Promise<void>((begin) => queue.push(begin));
    } else running += 1;
    try {
      return await work();
    } finally {
      // The turn is handed on as it is, so that nobody who comes now slips in before those who wait.
      const next = queue.shift();
      if (next) next();
      else running -= 1;
    }
  };
}
