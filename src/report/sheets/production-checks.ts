import { checkSetting } from "#beam";
import { invalid, requireInteger, requireText } from "#units";
import { limitWords } from "./acceptance-lines.ts";
import type { CommissioningInput } from "./commissioning-input.ts";
import { blank, type Cell, fact, type SheetColumn, type SheetSection, text, tick } from "./model.ts";
import { settingValue } from "./setting-columns.ts";
import type { Speech } from "./speech.ts";
import { splitColumns } from "./split-columns.ts";
import { settingHeads } from "./table-heads.ts";
import { fill } from "./words.ts";

const column = (key: string, name: string, share: number): SheetColumn => ({
  key,
  name,
  unit: "",
  align: "left",
  share,
});

/** Patches to burn with their settings in the units of the panel, and room for what they show. */
export function verificationSection(input: CommissioningInput, speech: Speech): SheetSection {
  const said = speech.words.commissioning;
  const { setup, verification, part } = input;
  if (verification.length === 0) invalid("verification patches", 0, "", "at least one is wanted");
  const limits = limitWords(part.acceptance, speech);
  for (const { setting } of verification) checkSetting(setup, setting);
  const settings = verification.map(({ setting }) => setting);
  const { same, own } = splitColumns(settings, setup.kind, speech);
  const shared = same.map(({ column, value }) => fact(speech.words.setting[column.name], value));
  return {
    id: "verification",
    heading: said.patchesHeading,
    blocks: [
      ...(shared.length === 0 ? [] : [{ kind: "strip", rows: shared } as const]),
      {
        kind: "table",
        caption: `${said.patchesCaption} ${fill(said.limitsFor, { residue: limits.residue, condition: limits.condition })}`,
        columns: [
          column("patch", said.patch, 11),
          ...settingHeads(own, speech),
          column("expect", said.expect, 20),
          { ...column("residue_percent", said.residue, 11), unit: "%" },
          column("metalCondition", said.condition, 11),
          column("passed", said.passed, 7),
        ],
        rows: verification.map(({ label, setting, mustShow }): Cell[] => {
          return [
            text(requireText("patch label", label, 40)),
            ...own.map((one) => text(settingValue(one, setting, speech))),
            text(mustShow),
            blank(),
            blank(),
            tick,
          ];
        }),
      },
    ],
  };
}

/** Every limit of the acceptance with room for what was measured on the first part. */
export function firstArticleSection({ part }: CommissioningInput, speech: Speech): SheetSection {
  const said = speech.words.commissioning;
  const { acceptance } = part;
  const limits = limitWords(acceptance, speech);
  const atMost = (limit: string): string => fill(said.atMost, { limit });
  const row = (test: string, method: string, limit: string): Cell[] => [
    text(test),
    text(method),
    text(limit),
    blank(),
    tick,
  ];
  const words = speech.words.acceptance;
  return {
    id: "first-article",
    heading: said.firstHeading,
    blocks: [
      {
        kind: "table",
        caption: said.firstCaption,
        columns: [
          column("test", said.test, 24),
          column("method", said.method, 24),
          column("limit", said.limit, 24),
          column("measured", said.measured, 20),
          column("passed", said.passed, 8),
        ],
        rows: [
          row(said.residueTest, said.byEye, atMost(limits.residue)),
          row(said.conditionTest, said.byEye, atMost(limits.condition)),
          ...(limits.temperature === null
            ? []
            : [row(said.temperatureTest, said.thermometer, atMost(limits.temperature))]),
          ...acceptance.tests.map(({ kind, method, limit }) =>
            row(words.tests[kind], method, limit.trim() === "" ? words.noLimit : limit),
          ),
        ],
      },
    ],
  };
}

/** What comes back, how often, within which limits; the usual checks with blanks where nothing was handed in. */
export function recheckSection({ rechecks }: CommissioningInput, speech: Speech): SheetSection {
  const said = speech.words.commissioning;
  // common practice, no source; how often is for the approver to say
  const usual = [
    said.recheckPower,
    said.recheckFocus,
    said.recheckWindow,
    said.recheckPatch,
    said.recheckExtraction,
    said.recheckInterlock,
  ].map((what) => ({ what, interval: null, limits: null }));
  const given = (words: string | null): Cell => (words === null || words.trim() === "" ? blank() : text(words));
  return {
    id: "recheck",
    heading: said.recheckHeading,
    blocks: [
      {
        kind: "table",
        caption: said.recheckCaption,
        columns: [
          column("what", said.what, 34),
          column("interval", said.interval, 22),
          column("limits", said.limits, 24),
          column("firstDue", said.firstDue, 20),
        ],
        rows: (rechecks.length === 0 ? usual : rechecks).map(({ what, interval, limits }) => [
          text(requireText("check", what, 200)),
          given(interval),
          given(limits),
          blank(),
        ]),
      },
    ],
  };
}

/** Room for who was trained, on what, by whom. */
export function trainedSection({ operatorLines }: CommissioningInput, speech: Speech): SheetSection {
  const said = speech.words.commissioning;
  const lines = requireInteger("operator lines", operatorLines, 1, 20);
  const { signDate, signature } = speech.words.procedure;
  return {
    id: "trained",
    heading: said.trainedHeading,
    blocks: [
      {
        kind: "table",
        caption: said.trainedCaption,
        columns: [
          column("operator", said.operatorName, 26),
          column("sheet", said.trainedOn, 24),
          column("by", said.trainedBy, 20),
          column("date", signDate, 12),
          column("signature", signature, 18),
        ],
        rows: Array.from({ length: lines }, () => [blank(), blank(), blank(), blank(), blank()]),
      },
    ],
  };
}
