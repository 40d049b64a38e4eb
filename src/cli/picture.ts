import { completeSetting } from "#beam";
import { parseSetting, pictureToWire } from "#contract";
import type { AreaFigures, Turns } from "#patch";
import { settingLine } from "#report";
import { formatNumber, formatQuantity, invalid, parseQuantity } from "#units";
import { type PatchView, partCautions, patchView } from "#workflows";
import { isFolder, readJson, writeWhole } from "./files.ts";
import { loadPart, modelOf, type PhysicsFlags } from "./load.ts";
import { pngOf } from "./png.ts";
import { GRADES, cautionLines, json } from "./show.ts";

export interface PictureFlags extends Omit<PhysicsFlags, "draws"> {
  readonly laser: string;
  readonly setting: string;
  readonly side?: string;
  readonly turns: string;
  readonly out: string;
  readonly json?: boolean;
}

const TURNS: Readonly<Record<string, Turns>> = {
  "outside-off": "outside, beam off",
  "outside-on": "outside, beam on",
  "inside-on": "inside, beam on",
};

/** Places of the patch that are told apart, by the name that JSON gives them. */
const PLACES = [
  ["whole", "whole patch"],
  ["interior", "interior"],
  ["lineStarts", "line starts"],
  ["lineEnds", "line ends"],
] as const;

/** `picture`: the predicted patch as a PNG, with its legend and what it says in words. */
export async function pictureVerb(flags: PictureFlags): Promise<string> {
  if (!/\.png$/i.test(flags.out)) invalid("picture file", flags.out, "", "its name must end in .png");
  if (await isFolder(flags.out)) invalid("picture file", flags.out, "", "is a folder, not a file");
  if (!Object.hasOwn(TURNS, flags.turns)) invalid("turns", flags.turns, "", `one of: ${Object.keys(TURNS).join(", ")}`);
  const turns = TURNS[flags.turns] as Turns;
  const side = flags.side === undefined ? {} : { side: parseQuantity(flags.side, "mm", "side of the patch") };
  // Only the central version is drawn; others would be made for nothing.
  const physics = { ...flags, draws: 1 };
  const { library, part } = await loadPart(physics);
  const setup = library.setup(flags.laser);
  const setting = completeSetting(setup, parseSetting(await readJson(flags.setting, "setting"), setup));
  const model = modelOf(part, physics);
  const view = patchView(model, setup, setting, { seed: flags.seed, turns, ...side });
  const cautions = partCautions(part, setup, setting);
  const { picture } = view;
  await writeWhole(flags.out, pngOf(picture.width, picture.height, picture.pixels));
  if (flags.json)
    return json(pictureToWire({ laser: setup.id, setting, file: flags.out, seed: flags.seed, view, cautions }));
  return [
    `${part.name} with ${setup.name}`,
    settingLine(setting),
    "",
    ...viewLines(view),
    "",
    "Legend",
    ...picture.legend.map((l) => `  ${l.colour}  ${l.words}`),
    "",
    `Picture written to ${flags.out} (${picture.width} × ${picture.height} pixels, lines run from side to side).`,
    ...view.caveats.map((c) => `note: ${c}`),
    "",
    ...cautionLines(cautions),
  ].join("\n");
}

const percent = (share: number) => formatQuantity(share, "%", 2);

const oxideText = (thickness: number) => formatQuantity(thickness, thickness < 1e-6 ? "nm" : "um", 2);

export function viewLines({ map, side, tint, turns }: PatchView): string[] {
  const { figures } = map;
  const words = (a: AreaFigures | null) =>
    a === null
      ? "too small to have any"
      : `residue ${percent(a.residue)}, melted ${percent(a.melted)}, deepest melt ${formatQuantity(a.meltDepth, "um", 2)}, thickest oxide ${oxideText(a.oxide)}, ${GRADES[a.metalCondition]}`;
  const s = figures.streaks;
  return [
    `patch             ${formatQuantity(side, "mm", 2)} square, the scanner turns ${turns}`,
    ...PLACES.map(([key, name]) => `${name.padEnd(17)} ${words(figures[key])}`),
    `tint              ${tint} (${oxideText((figures.interior ?? figures.whole).oxide)}, the thickest oxide amid the patch)`,
    `streaks           ${
      s === null
        ? "not told: the patch has no interior"
        : `residue differs by ±${formatNumber(100 * s.coveredAcross, 2)} % of the area from line to line and ±${formatNumber(100 * s.coveredAlong, 2)} % along the lines; highest fluence on bare metal by ±${formatNumber(100 * s.fluenceAcross, 2)} % and ±${formatNumber(100 * s.fluenceAlong, 2)} % of its mean`
    }`,
  ];
}
