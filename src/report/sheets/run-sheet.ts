import { checkSetting } from "#beam";
import { invalid, requireFinite } from "#units";
import { cautionBox } from "./caution-box.ts";
import { couponSketch } from "./coupon-sketch.ts";
import type { Language } from "./language.ts";
import { fact, type Sheet, type SheetSection, wide } from "./model.ts";
import { paperHead, speak } from "./paper-head.ts";
import type { RunSheetInput } from "./run-sheet-input.ts";
import { patchTables } from "./run-tables.ts";
import { splitColumns } from "./split-columns.ts";
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
                    words: `${said.sketchNote} ${fill(said.seed, { seed: requireFinite("seed", trial.seed), design: trial.design })}.`,
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
        ...patchTables(input, own, speech),
      ),
    ],
  };
}
