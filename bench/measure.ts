/** One line of the bench: a piece of work beside a reference timed in the same run. */
export interface Row {
  readonly id: string;
  /** CPU seconds on one core, user and system */
  readonly cpu_s: number;
  readonly reference_cpu_s: number;
  readonly ratio: number;
  readonly target: string;
  /** what the reference is, and how far the two results may differ */
  readonly against: string;
}

/** A piece that is measured only when asked for: id, and the work that measures it. */
export interface Piece {
  readonly id: string;
  measure(): Row | Promise<Row>;
}

/** Median CPU seconds of one call, over `rounds` rounds of `calls`, after one call to warm up. */
export function cpu(calls: number, rounds: number, work: () => unknown): number {
  work();
  const times: number[] = [];
  for (let r = 0; r < rounds; r++) {
    const before = process.cpuUsage();
    for (let i = 0; i < calls; i++) work();
    const spent = process.cpuUsage(before);
    times.push((spent.user + spent.system) / 1e6 / calls);
  }
  return times.sort((a, b) => a - b)[Math.floor(rounds / 2)] as number;
}

export function piece(
  id: string,
  target: string,
  against: string,
  measure: () => { cpu: number; reference: number },
): Piece {
  return {
    id,
    measure() {
      const { cpu: own, reference } = measure();
      return { id, cpu_s: own, reference_cpu_s: reference, ratio: own / reference, target, against };
    },
  };
}
