import type { AnswerRun } from "#compute";

export interface SweepFlags {
  readonly threads?: number;
  readonly json?: boolean;
}

/**
 * Runs work on threads with its progress in one line on the error stream (a terminal only, and not with --json); Ctrl+C
 * cancels the work, a second one ends the program as ever.
 */
export async function withProgress<T>(flags: SweepFlags, work: (run: AnswerRun) => Promise<T>): Promise<T> {
  const shown = process.stderr.isTTY === true && flags.json !== true;
  const stop = new AbortController();
  const cancel = () => stop.abort();
  process.once("SIGINT", cancel);
  try {
    return await work({
      signal: stop.signal,
      ...(flags.threads === undefined ? {} : { threads: flags.threads }),
      onProgress: (words) => {
        if (shown) process.stderr.write(`\r\x1b[K${words}`);
      },
    });
  } finally {
    process.off("SIGINT", cancel);
    if (shown) process.stderr.write("\r\x1b[K");
  }
}

/** The same line for work on this thread alone: Ctrl+C ends the program as ever. */
export function progressLine(flags: { readonly json?: boolean }): { say(words: string): void; clear(): void } {
  const write = (text: string) => {
    if (process.stderr.isTTY === true && flags.json !== true) process.stderr.write(`\r\x1b[K${text}`);
  };
  return { say: write, clear: () => write("") };
}
