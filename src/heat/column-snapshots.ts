import { invalid } from "#units";
import type { ColumnSnapshot, ColumnSpec } from "./column-spec.ts";
import type { ColumnState } from "./column-state.ts";

/** Moments asked for and the column at those that have passed. */
export interface SnapshotRecord {
  readonly times: readonly number[];
  readonly taken: ColumnSnapshot[];
  /** s and K, of the last step */
  time: number;
  readonly temperature: Float64Array;
}

/** Refuses moments that do not ascend or lie outside the run. */
export function snapshotRecord(state: ColumnState, spec: ColumnSpec): SnapshotRecord {
  const times = spec.snapshotTimes ?? [];
  times.forEach((t, i) => {
    if (!(t >= 0 && t <= spec.endTime)) invalid("snapshot time", t, "s", "must lie between 0 and the end time");
    if (i > 0 && !(t > times[i - 1])) invalid("snapshot time", t, "s", "must be later than the one before");
  });
  const record = { times, taken: [], time: 0, temperature: new Float64Array(times.length > 0 ? state.grid.count : 0) };
  takeSnapshots(record, state, 0);
  return record;
}

/** Takes up the moments that the step ending at t (s) has passed. */
export function takeSnapshots(record: SnapshotRecord, state: ColumnState, t: number): void {
  const { times, taken, temperature } = record;
  if (times.length === 0) return;
  const { count, layerCount } = state.grid;
  // The last step ends at the end time but for its last bits.
  const reached = (moment: number) => moment <= t * (1 + 1e-9);
  while (taken.length < times.length && reached(times[taken.length])) {
    const moment = times[taken.length];
    const share = t > record.time ? Math.min(1, (moment - record.time) / (t - record.time)) : 1;
    taken.push({
      time: moment,
      firstCell: state.first,
      temperature: Float64Array.from({ length: count }, (_, i) =>
        i < state.first ? state.temperature[i] : temperature[i] + share * (state.temperature[i] - temperature[i]),
      ),
      conversion: state.conversion.slice(0, layerCount),
    });
  }
  record.time = t;
  temperature.set(state.temperature.subarray(0, count));
}
