import type { SheetBlock, SheetColumn, SheetSection } from "./model.ts";
import { inRunOrder, readingRow, runRow } from "./run-rows.ts";
import type { RunSheetInput } from "./run-sheet-input.ts";
import type { SettingColumn } from "./setting-columns.ts";
import type { Speech } from "./speech.ts";
import { settingHeads } from "./table-heads.ts";
import { fill } from "./words.ts";

const column = (
  key: string,
  name: string,
  share: number,
  unit = "",
  align: "left" | "right" = "right",
): SheetColumn => ({ key, name, unit, align, share });

/** Shares that one table holds on a page on its side before figures come too close to be read; tried on paper. */
const widest = 185;
const widthOf = (columns: readonly SheetColumn[]): number => columns.reduce((sum, { share }) => sum + share, 0);

/**
 * The patches in run order: what to do, what to set, and room for what is seen. Where all that is too wide for one
 * table, the readings of the acceptance tests get a table of their own with the same rows.
 */
export function patchTables(input: RunSheetInput, own: readonly SettingColumn[], speech: Speech): SheetSection[] {
  const said = speech.words.run;
  const { trial, acceptance } = input;
  const first = [
    column("runOrder", said.runOrder, 6),
    column("done", said.done, 7, "", "left"),
    column("patch", said.patch, 7),
    column("couponLabel", said.coupon, 9, "", "left"),
    column("wait_s", said.wait, 8, "s"),
    ...settingHeads(own, speech),
  ];
  const seen = [
    column("residue_percent", said.residue, 10, "%", "left"),
    column("metalCondition", said.condition, 9, "0–4", "left"),
    ...(acceptance.metalTemperatureMax === null
      ? []
      : [column("temperature_degC", said.temperature, 10, "°C", "left")]),
  ];
  const tests = acceptance.tests.map(({ kind, limit }) =>
    column(`test:${kind}`, speech.words.acceptance.tests[kind], 14, limit, "left"),
  );
  const note = column("note", said.note, 20, "", "left");
  const apart = widthOf([...first, ...seen, ...tests, note]) > widest;
  const readings = apart ? seen : [...seen, ...tests];
  const label = new Map(trial.coupons.map((coupon) => [coupon.coupon, coupon.label]));
  const labelled = inRunOrder(trial).map((patch) => ({ patch, label: label.get(patch.coupon) ?? "" }));
  const order: SheetBlock = {
    kind: "table",
    caption: captionOf(input, speech),
    columns: [...first, ...readings, note],
    rows: labelled.map((one) => runRow(one.patch, one.label, own, readings.length, speech)),
  };
  const sections: SheetSection[] = [{ id: "order", heading: said.orderHeading, blocks: [order] }];
  if (!apart || tests.length === 0) return sections;
  const block: SheetBlock = {
    kind: "table",
    caption: said.testsCaption,
    columns: [first[0]!, first[2]!, first[3]!, ...tests, note],
    rows: labelled.map((one) => readingRow(one.patch, one.label, tests.length, speech)),
  };
  return [...sections, { id: "tests", heading: said.testsHeading, blocks: [block] }];
}

function captionOf({ trial }: RunSheetInput, speech: Speech): string {
  const burned = trial.patches.filter(({ setting }) => setting !== null).length;
  const kept = trial.patches.filter(({ role }) => role === "untouched").length;
  return fill(speech.words.run.orderCaption, { burned, cleaned: trial.patches.length - burned - kept, kept });
}
