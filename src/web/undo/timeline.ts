/** States that a person went through, with the one that holds now. */
export interface Timeline<T> {
  readonly past: readonly T[];
  readonly now: T;
  readonly future: readonly T[];
  /** what made the last change and when, so that one drag is one step back */
  readonly last: { readonly cause: string; readonly at: number } | null;
}

const DEPTH = 200;
/** ms: changes of one cause that follow each other faster are one step. */
export const TOGETHER = 700;

export const startOf = <T>(now: T): Timeline<T> => ({ past: [], now, future: [], last: null });

/** The timeline after a change; `cause` names the control, `at` the instant in ms. */
export function changed<T>(line: Timeline<T>, next: T, cause: string, at: number): Timeline<T> {
  if (next === line.now) return line;
  const joins = line.last !== null && line.last.cause === cause && at - line.last.at < TOGETHER && line.past.length > 0;
  return {
    past: joins ? line.past : [...line.past.slice(1 - DEPTH), line.now],
    now: next,
    future: [],
    last: { cause, at },
  };
}

/** The timeline with every state put through `change`: what no undo may take back. */
export const everywhere = <T>(line: Timeline<T>, change: (state: T) => T): Timeline<T> => ({
  past: line.past.map(change),
  now: change(line.now),
  future: line.future.map(change),
  last: null,
});

export function undone<T>(line: Timeline<T>): Timeline<T> {
  if (line.past.length === 0) return line;
  const back = line.past[line.past.length - 1] as T;
  return { past: line.past.slice(0, -1), now: back, future: [line.now, ...line.future], last: null };
}

export function redone<T>(line: Timeline<T>): Timeline<T> {
  if (line.future.length === 0) return line;
  const [on, ...rest] = line.future as [T, ...T[]];
  return { past: [...line.past, line.now], now: on, future: rest, last: null };
}
