import { depthOfFocus, lensOf } from "#beam";
import { requirePositive } from "#units";
import { acceptLines, limitWords, rejectLines } from "./acceptance-lines.ts";
import {
  blank,
  type Cell,
  fact,
  type Sentence,
  type SheetBlock,
  type SheetFact,
  type SheetSection,
  text,
} from "./model.ts";
import type { ProcedureInput } from "./procedure-input.ts";
import { beamFacts } from "./setting-section.ts";
import type { Speech } from "./speech.ts";
import { fill } from "./words.ts";

export function setupSection({ setup, setting, delivery }: ProcedureInput, speech: Speech): SheetSection {
  const said = speech.words.procedure;
  const lens = lensOf(setup, setting.lens);
  const lensText = fill(said.lensValue, {
    id: lens.id,
    focal: speech.quantity("focal length", lens.focalLength, "mm"),
    field: speech.quantity("field", lens.fieldSide, "mm"),
  });
  const rows = [
    fact(said.setup, `${setup.name}, ${speech.quantity("wavelength", setup.wavelength, "nm", 4)}`),
    fact(speech.words.setting.lens, lensText),
    fact(said.delivery, said.deliveries[delivery]),
  ];
  return { id: "setup", heading: said.setupHeading, blocks: [{ kind: "facts", rows }] };
}

export function focusSection(input: ProcedureInput, speech: Speech): SheetSection {
  const said = speech.words.procedure;
  const { scan, setting, standOff } = input;
  const depth = depthOfFocus(lensOf(input.setup, setting.lens).rayleighLength, 0.05);
  const focus =
    setting.defocus === 0
      ? fill(said.inFocus, { depth: speech.quantity("depth of focus", depth, "mm", 2) })
      : fill(said.outOfFocus, { defocus: speech.exactQuantity("defocus", setting.defocus, "mm") });
  const measured = (name: string, value: number | null): Cell =>
    value === null ? blank("mm") : text(speech.exactQuantity(name, requirePositive(name, value, "m"), "mm"));
  const blocks: SheetBlock[] = [
    {
      kind: "facts",
      rows: [
        fact(said.standOff, measured("stand-off", standOff)),
        fact(said.focus, focus),
        fact(said.pattern, said.patterns[scan.pattern]),
        fact(said.lineLength, measured("line length", scan.lineLength)),
      ],
    },
  ];
  const beam = beamFacts(input.setup, setting, speech);
  blocks.push({ kind: "facts", rows: beam, spare: { order: 1, name: beam.map(({ name }) => name).join(", ") } });
  if (scan.note.trim() !== "")
    blocks.push({ kind: "facts", rows: [fact(said.scanNote, scan.note)], spare: { order: 4, name: said.scanNote } });
  return { id: "focus", heading: said.focusHeading, blocks };
}

export function acceptSection({ part }: ProcedureInput, speech: Speech): SheetSection {
  const items = acceptLines(part.acceptance, speech);
  return { id: "accept", heading: speech.words.acceptance.accept, blocks: [{ kind: "list", items }] };
}

export function rejectSection({ part }: ProcedureInput, speech: Speech): SheetSection {
  const items = rejectLines(part.acceptance, speech);
  return { id: "reject", heading: speech.words.acceptance.reject, blocks: [{ kind: "list", items }] };
}

export function checksSection({ furtherChecks }: ProcedureInput, speech: Speech): SheetSection {
  const said = speech.words.procedure;
  return {
    id: "checks",
    heading: said.checksHeading,
    blocks: [
      { kind: "text", words: said.before },
      { kind: "ticks", items: [...said.checksBefore, ...furtherChecks] },
      { kind: "text", words: said.during },
      { kind: "ticks", items: said.checksDuring },
      { kind: "text", words: said.after },
      { kind: "ticks", items: said.checksAfter },
    ],
  };
}

export function ppeSection({ eyewear, respiratory, otherPpe }: ProcedureInput, speech: Speech): SheetSection {
  const said = speech.words.procedure;
  const given = (words: string | null): string =>
    words === null || words.trim() === "" ? said.ppeMissing : words.trim();
  const rows: SheetFact[] = [fact(said.eyewear, given(eyewear)), fact(said.respiratory, given(respiratory))];
  if (otherPpe.length > 0) rows.push(fact(said.otherPpe, otherPpe.join("; ")));
  return { id: "ppe", heading: said.ppeHeading, blocks: [{ kind: "facts", rows }] };
}

/** Never left out, and never shortened. */
export function stopBox({ part, furtherStops }: ProcedureInput, speech: Speech): SheetBlock {
  const said = speech.words.procedure;
  const { temperature } = limitWords(part.acceptance, speech);
  const items = [
    ...said.stopRules,
    ...(temperature === null ? [] : [fill(said.stopTemperature, { limit: temperature })]),
  ].map((words): Sentence => ({ words, language: speech.language, mark: "" }));
  const further = furtherStops.map((words): Sentence => ({ words, language: speech.language, mark: "" }));
  return {
    kind: "box",
    title: said.stopHeading,
    lead: said.stopLead,
    items: [...items, ...further],
    notices: [],
  };
}
