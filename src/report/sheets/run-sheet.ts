import { checkSetting } from "#beam";
import { invalid } from "#units";
import { cautionBox } from "./caution-box.ts";
import { couponSketch } from "./coupon-sketch.ts";
import type { Language } from "./language.ts";
import { fact, type Sheet, type SheetColumn, type SheetSection, wide } from "./model.ts";
import { paperHead, speak } from "./paper-head.ts";
import { inRunOrder, runRow } from "./run-rows.ts";
import type { RunSheetInput } from "./run-sheet-input.ts";
import type { SettingColumn } from "./setting-columns.ts";
import type { Speech } from "./speech.ts";
import { splitColumns } from "./split-columns.ts";
import { settingHeads } from "./table-heads.ts";
import { fill } from "./words.ts";

/**
 * The run sheet of a trial as plain data: patches in run order with settings in the units of the panel, the same
 * figures as the run sheet file, a box to tick, and room for every reading that the acceptance wants. Throws
 * InvalidInput for a trial without patches, a setting that the set-up cannot run, and a sheet without cautions.
 */
export function buildRunSheet(input: RunSheetInput, language: Language = "en"): Sheet<"run-sheet"> {
  const speech = speak(language);
  const { trial, setup } = input;
  const said = speech.words.run;
  if (trial.patches.length === 0) invalid("patches", 0, "", `trial ${trial.id} has none to burn`);
  for (const { setting } of trial.patches) if (setting !== null) checkSetting(setup, setting);
  const head = paperHead(input, speech, [fact(speech.words.common.part, input.partName)]);
  const bare = (id: string, ...blocks: SheetSection["blocks"]): SheetSection => ({ id, heading: "", blocks });
  const settings = trial.patches.flatMap(({ setting }) => (setting === null ? [] : [setting]));
  const { same, own } = splitColumns(settings, setup.kind, speech);
  const sketches = trial.coupons.map((coupon): SheetSection["blocks"][number] => ({
    kind: "sketch",
    coupon: couponSketch(trial, coupon, speech),
  }));
  return {
    ...head,
    kind: "run-sheet",
    title: fill(said.title, { trial: trial.id }),
    subtitle: fill(said.subtitle, { part: input.partName, setup: setup.name }),
    footer: [head.footer, speech.words.common.cautionsFirst].join(" · "),
    upright: false,
    rows: [
      {
        flow: false,
        columns: [
          {
            share: 3,
            sections: [
              bare("trial-only", { kind: "banner", tone: "warn", words: said.trialOnly, detail: "" }),
              bare("cautions", cautionBox(input.cautions, speech)),
            ],
          },
          {
            share: 2,
            sections: [
              {
                id: "coupons",
                heading: said.couponsHeading,
                blocks: [
                  ...sketches,
                  {
                    kind: "text",
                    words: `${said.sketchNote} ${fill(said.seed, { seed: trial.seed, design: trial.design })}.`,
                  },
                ],
              },
            ],
          },
        ],
      },
      wide(
        {
          id: "same",
          heading: said.sameHeading,
          blocks: [
            {
              kind: "strip",
              rows: [
                fact(speech.words.procedure.setup, setup.name),
                ...same.map(({ column, value }) => fact(speech.words.setting[column.name], value)),
              ],
            },
          ],
        },
        patchTable(input, own, speech),
      ),
    ],
  };
}

const column = (
  key: string,
  name: string,
  share: number,
  unit = "",
  align: "left" | "right" = "right",
): SheetColumn => ({
  key,
  name,
  unit,
  align,
  share,
});

function patchTable({ trial, acceptance }: RunSheetInput, own: readonly SettingColumn[], speech: Speech): SheetSection {
  const said = speech.words.run;
  const label = new Map(trial.coupons.map((coupon) => [coupon.coupon, coupon.label]));
  const readings: SheetColumn[] = [
    column("residue_percent", said.residue, 10, "%", "left"),
    column("metalCondition", said.condition, 9, "0–4", "left"),
    ...(acceptance.metalTemperatureMax === null
      ? []
      : [column("temperature_degC", said.temperature, 10, "°C", "left")]),
    ...acceptance.tests.map(({ kind, limit }) =>
      column(`test:${kind}`, speech.words.acceptance.tests[kind], 14, limit, "left"),
    ),
  ];
  const burned = trial.patches.filter(({ setting }) => setting !== null).length;
  const kept = trial.patches.filter(({ role }) => role === "untouched").length;
  const cleaned = trial.patches.length - burned - kept;
  return {
    id: "order",
    heading: said.orderHeading,
    blocks: [
      {
        kind: "table",
        caption: fill(said.orderCaption, { burned, cleaned, kept }),
        columns: [
          column("runOrder", said.runOrder, 6),
          column("done", said.done, 7, "", "left"),
          column("patch", said.patch, 7),
          column("couponLabel", said.coupon, 9, "", "left"),
          column("wait_s", said.wait, 8, "s"),
          ...settingHeads(own, speech),
          ...readings,
          column("note", said.note, 20, "", "left"),
        ],
        rows: inRunOrder(trial).map((patch) =>
          runRow(patch, label.get(patch.coupon) ?? String(patch.coupon), own, readings.length, speech),
        ),
      },
    ],
  };
}
