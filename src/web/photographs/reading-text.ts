import type { GradingWire } from "#contract";
import { formatNumber } from "#units";
import { words } from "../words/index.ts";
import { isOverruled, isReference, type WirePatch } from "./rulings.ts";

const say = words.photographs;

/** A share of a file in per cent, as a person reads it. */
export const percentText = (percent: number): string =>
  `${percent < 9.95 ? formatNumber(Number(percent.toFixed(1)), 2) : percent.toFixed(0)} %`;

/** The residue of a reading in words: what lies below the detection limit is not said to be nothing. */
export function readResidueText({ reading }: WirePatch): string {
  const { residue } = reading;
  if (residue === null) return say.verdicts["not settled"];
  const { value_percent, detectionLimit_percent } = residue;
  return value_percent < detectionLimit_percent
    ? say.table.less(percentText(detectionLimit_percent))
    : percentText(value_percent);
}

/** What counts of the residue: a person's word, with the reading beside it, or the reading. */
export function residueText(patch: WirePatch): string {
  const { ruling } = patch;
  if (ruling === null || ruling.residue_percent === null) return readResidueText(patch);
  const said = say.table.by(percentText(ruling.residue_percent), ruling.grader);
  return `${said} (${say.table.photograph(readResidueText(patch))})`;
}

export function metalText({ outcome, ruling, read }: WirePatch): string {
  const grade = outcome?.metalCondition ?? null;
  if (grade === null) return words.frame.unknown;
  const name = words.grades[grade] ?? String(grade);
  if (ruling === null || ruling.metalCondition === null) return name;
  const was = read?.metalCondition ?? null;
  const photograph = was === null ? words.frame.unknown : (words.grades[was] ?? String(was));
  return `${say.table.by(name, ruling.grader)} (${say.table.photograph(photograph)})`;
}

export function seenText({ ruling }: WirePatch): string {
  if (ruling === null) return "";
  return isOverruled(ruling) ? say.table.overruled(ruling.grader) : say.table.accepted(ruling.grader);
}

/** A patch in one line, for readers who do not see the picture. */
export function markText(patch: WirePatch): string {
  if (isReference(patch)) return say.mark(patch.patch, words.roles[patch.role] ?? say.reference, "", "");
  return say.mark(patch.patch, say.verdicts[patch.verdict], residueText(patch), seenText(patch));
}

/** Whether the metal is worse than what is accepted. */
export const isHarmed = ({ outcome }: WirePatch, { metalConditionMax }: GradingWire): boolean =>
  (outcome?.metalCondition ?? 0) > metalConditionMax;

/** Whether a person still has to look: flagged, near the limit, residue or metal not settled, and not ruled on. */
export const toLook = (patch: WirePatch): boolean =>
  !isReference(patch) &&
  patch.ruling === null &&
  (patch.reading.flags.length > 0 ||
    patch.read?.metalCondition == null ||
    patch.verdict === "near the limit" ||
    patch.verdict === "not settled");

/** The photograph that most patches were read from, of those that were read. */
export function bestPhoto({ photos, patches }: GradingWire): GradingWire["photos"][number] | null {
  const shown = photos.filter((p) => p.scale_px_per_mm !== null);
  const read = (name: string): number => patches.filter((p) => p.reading.photo === name).length;
  const [first] = shown;
  return first === undefined ? null : shown.reduce((best, p) => (read(p.name) > read(best.name) ? p : best), first);
}
