/**
 * Latest wins: while one question is being answered, only the newest of those asked meanwhile is kept.
 * Nothing queues, so a dragged control is answered at the pace of the physics and ends on its last value.
 */
export function latestWins<A, R>(
  answer: (ask: A) => Promise<R>,
  onAnswer: (answer: R, ask: A) => void,
  onError: (error: Error, ask: A) => void,
): { ask: (ask: A) => void; stop: () => void } {
  let busy = false;
  let stopped = false;
  let waiting: { ask: A } | null = null;

  async function run(ask: A): Promise<void> {
    busy = true;
    try {
      const result = await answer(ask);
      if (!stopped) onAnswer(result, ask);
    } catch (error) {
      if (!stopped) onError(error instanceof Error ? error : new Error(String(error)), ask);
    }
    busy = false;
    const next = waiting;
    waiting = null;
    if (next && !stopped) void run(next.ask);
  }

  return {
    ask(ask) {
      if (stopped) return;
      if (busy) waiting = { ask };
      else void run(ask);
    },
    stop() {
      stopped = true;
      waiting = null;
    },
  };
}
