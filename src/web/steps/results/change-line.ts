import type { Outcome } from "#terms";

/** A row of outcomes as it was and as it was recorded. */
export interface Change {
  readonly before: Outcome;
  readonly after: Outcome;
}

/** Changes that can be taken back, the last one at the end, and those that were, the next one first. */
export interface ChangeLine {
  readonly past: readonly Change[];
  readonly future: readonly Change[];
}

export const noChanges: ChangeLine = { past: [], future: [] };

export const withSaved = ({ past }: ChangeLine, change: Change): ChangeLine => ({
  past: [...past, change],
  future: [],
});

/** After the server has a change taken back. Another row may have been saved meanwhile: it stays, and nothing goes on from before it. */
export function withUndone(line: ChangeLine, change: Change): ChangeLine {
  const last = line.past.at(-1) === change;
  return { past: line.past.filter((c) => c !== change), future: last ? [change, ...line.future] : [] };
}

/** After the server has a change anew. */
export const withRedone = ({ past, future }: ChangeLine, change: Change): ChangeLine => ({
  past: [...past, change],
  future: future.filter((c) => c !== change),
});
