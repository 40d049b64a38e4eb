import { beamState, lensOf, spotDiameterAt } from "#beam";
import type { Ratio } from "#terms";
import { requireInRange } from "#units";
import type { CommissioningInput } from "./commissioning-input.ts";
import { blank, type Cell, fact, type SheetColumn, type SheetSection, text } from "./model.ts";
import type { Speech } from "./speech.ts";
import { fill } from "./words.ts";

const column = (key: string, name: string, share: number, unit = ""): SheetColumn => ({
  key,
  name,
  unit,
  align: unit === "" ? "left" : "right",
  share,
});

/** "171 to 189 W", or words that leave it to the approver. */
function limitsCell(name: string, value: number, tolerance: Ratio | null, unit: string, speech: Speech): Cell {
  if (tolerance === null) return text(speech.words.commissioning.limitBySigner);
  const share = requireInRange(`${name} tolerance`, tolerance, "", 0, 0.5);
  return text(speech.range(name, value * (1 - share), value * (1 + share), unit));
}

/** Mean power worked out at half level, at the setting's level and at full level, with room for three readings. */
export function powerSection(input: CommissioningInput, speech: Speech): SheetSection {
  const said = speech.words.commissioning;
  const levels = [...new Set([0.5, input.setting.level, 1])].toSorted((a, b) => a - b);
  const rows = levels.map((level) => {
    const power = beamState(input.setup, { ...input.setting, level }).meanPower;
    return [
      text(speech.exactQuantity("level", level, "%")),
      text(speech.quantity("mean power", power, "W")),
      limitsCell("power", power, input.powerTolerance, "W", speech),
      blank("W"),
      blank("W"),
      blank("W"),
      { kind: "tick" },
    ] satisfies Cell[];
  });
  const reading = (number: number): SheetColumn => column(`reading${number}`, fill(said.reading, { number }), 14);
  return {
    id: "power",
    heading: said.powerHeading,
    blocks: [
      { kind: "facts", rows: [fact(said.meter, blank()), fact(said.warmUp, blank("min")), fact(said.window, blank())] },
      {
        kind: "table",
        caption: said.powerCaption,
        columns: [
          column("level_percent", speech.words.setting.level, 15),
          column("expected_W", said.expected, 12),
          column("limits", said.limits, 20),
          reading(1),
          reading(2),
          reading(3),
          column("result", said.result, 11),
        ],
        rows,
      },
    ],
  };
}

/** Heights at which marks are burned, in Rayleigh lengths of the lens; those beyond the set-up's defocus are left out. */
const heights = [-2, -1, 0, 1, 2] as const;

/** The 1/e² spot worked out at each height, with room for the marks. */
export function focusBurnSection(input: CommissioningInput, speech: Speech): SheetSection {
  const said = speech.words.commissioning;
  const lens = lensOf(input.setup, input.setting.lens);
  // a panel takes tenths of a millimetre; below that the step is kept as it is
  const step = lens.rayleighLength >= 1e-3 ? Math.round(lens.rayleighLength * 1e4) / 1e4 : lens.rayleighLength;
  const rows = heights
    .map((k) => k * step)
    .filter((height) => Math.abs(height) <= input.setup.defocusMax * (1 + 1e-9))
    .map((height) => {
      const spot = spotDiameterAt(lens, height);
      return [
        text(speech.quantity("height", height, "mm", 2)),
        text(speech.quantity("spot", spot, "um")),
        limitsCell("spot", spot, input.spotTolerance, "um", speech),
        blank("µm"),
        blank("µm"),
      ];
    });
  return {
    id: "focus-burn",
    heading: said.focusHeading,
    blocks: [
      {
        kind: "table",
        caption: `${said.focusCaption} ${said.focusNote}`,
        columns: [
          column("height_mm", said.height, 17),
          column("spot_um", said.spotExpected, 19),
          column("limits", said.limits, 24),
          column("mark1_um", `${said.mark} 1`, 20),
          column("mark2_um", `${said.mark} 2`, 20),
        ],
        rows,
      },
      { kind: "facts", rows: [fact(said.focusFound, blank("mm"))] },
    ],
  };
}
