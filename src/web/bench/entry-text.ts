import type { RunEntry } from "#terms";
import type { PatchRun } from "#trial";
import { quantityText } from "../show/quantity-text.ts";
import { words } from "../words/index.ts";

const say = words.bench;

/** Time of day of an instant; with the day where it is not today's. */
export function timeText(instant: string): string {
  const date = new Date(instant);
  const time = new Intl.DateTimeFormat(undefined, { hour: "2-digit", minute: "2-digit" }).format(date);
  if (date.toDateString() === new Date().toDateString()) return time;
  return `${new Intl.DateTimeFormat(undefined, { dateStyle: "medium" }).format(date)}, ${time}`;
}

/** An entry in one line: what, when, by whom, and what was noted. */
export function entryText(entry: RunEntry): string {
  const { plateTemperature, note } = entry;
  const value = plateTemperature === null ? "" : quantityText(plateTemperature, "degC");
  const what = say.withNote(say.entry[entry.kind](entry.patch), value);
  return say.withNote(say.by(say.at(what, timeText(entry.at)), entry.by), note);
}

/** What became of a patch, in a few words. */
export function runText({ state, tick, repeats }: PatchRun): string {
  if (tick === null) return say.done.open;
  const time = timeText(tick.at);
  if (state === "skipped") return say.done.skipped(time, tick.note);
  return repeats > 0 ? say.done.repeated(time, repeats + 1) : say.done.burned(time);
}
