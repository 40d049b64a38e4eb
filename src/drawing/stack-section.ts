import { invalid } from "#units";
import { label } from "./lettering.ts";
import { letterRows, type LetterRow } from "./stack-labels.ts";
import { paperTheme, type Theme } from "./palette.ts";
import { hatch, picture, type PictureOptions } from "./picture.ts";
import { type HeatFilm, heatFilmSvg } from "./heat-film.ts";
import { element } from "./xml.ts";

/** One layer as drawn; micrometres because the drawing is lettered in them. */
export interface SectionLayer {
  readonly name: string;
  readonly thickness_um: number;
  /** CSS colour; the picture tells layers apart by border and words too */
  readonly colour: string;
  readonly mustStay: boolean;
}

export interface StackSectionOptions extends PictureOptions {
  readonly width?: number;
  /** thickness of the metal in words, for example "4 mm" */
  readonly metalThickness?: string;
  readonly film?: HeatFilm;
}

/** Height that all layers share; layers are in scale with each other. */
const layersHeight = 120;
const lightHeight = 44;
const metalHeight = 58;
/** A layer too thin for the scale is drawn this thick and said to be so. */
const thinnest = 2;
const block = { left: 64, width: 150 };

/** Layers over metal as a section in scale, light coming in from above, the metal broken off below. */
export function stackSectionSvg(
  layers: readonly SectionLayer[],
  metalName: string,
  options: StackSectionOptions = {},
): string {
  const theme = options.theme ?? paperTheme;
  const id = options.id ?? "stack";
  const film = options.film;
  const width = options.width ?? (film === undefined ? 440 : 680);
  for (const layer of layers)
    if (!(layer.thickness_um > 0) || !Number.isFinite(layer.thickness_um))
      return invalid(`thickness of ${layer.name}`, layer.thickness_um, "um", "must be above 0");
  const total = layers.reduce((sum, layer) => sum + layer.thickness_um, 0);
  const scale = total > 0 ? layersHeight / total : 1;
  const parts: string[] = [element("defs", {}, hatch(`${id}-metal`, theme.muted, 6, 0.8, 45)), lightRays(theme)];
  let y = lightHeight;
  const rows: LetterRow[] = [];
  for (const layer of layers) {
    const exact = layer.thickness_um * scale;
    const height = Math.max(exact, thinnest);
    const box = { x: block.left, y, width: block.width, height };
    parts.push(
      element("rect", { ...box, fill: layer.colour, stroke: theme.ink, "stroke-width": layer.mustStay ? 1.8 : 0.6 }),
    );
    const thin = exact < thinnest ? " (drawn thicker)" : "";
    const stay = layer.mustStay ? ", must stay" : "";
    rows.push({
      from: y,
      to: y + height,
      words: `${layer.name}, ${shortNumber(layer.thickness_um)} µm${stay}${thin}`,
      bold: layer.mustStay,
    });
    y += height;
  }
  const metalTop = y;
  const metalWords =
    options.metalThickness === undefined ? metalName : `${metalName}, ${options.metalThickness} (broken off)`;
  parts.push(metalBlock(id, metalTop, theme));
  rows.push({ from: metalTop, to: metalTop + metalHeight, words: metalWords, bold: false });
  if (total > 0) parts.push(scaleBar(scale, total, theme));
  const labelWidth = film === undefined ? width - 244 : 210;
  const lettered = letterRows(rows, { rail: block.left + block.width, width: labelWidth }, theme);
  parts.push(lettered.svg);
  if (film !== undefined) {
    const place = {
      id: `${id}-film`,
      left: 470,
      width: width - 480,
      top: lightHeight,
      bottom: metalTop + metalHeight,
      scale,
      theme,
    };
    parts.push(heatFilmSvg(film, place));
  }
  const words = rows.map((row) => row.words).join("; ");
  return picture(
    {
      id,
      title: options.title ?? `Section of the stack on ${metalName}`,
      description: options.description ?? `From the top: ${words}. Light enters from above.`,
      width,
      height: Math.max(metalTop + metalHeight + (film === undefined ? 8 : 46), lettered.bottom + 8),
      unit: "",
      background: theme.paper,
    },
    ...parts,
  );
}

function shortNumber(value: number): string {
  return String(Number(value.toPrecision(3)));
}

function lightRays(theme: Theme): string {
  const rays = [0.25, 0.5, 0.75].map((share) => {
    const x = block.left + block.width * share;
    return `M${x} 8V${lightHeight - 8}M${x - 4} ${lightHeight - 14}L${x} ${lightHeight - 6}L${x + 4} ${lightHeight - 14}`;
  });
  return (
    element("path", { d: rays.join(""), stroke: theme.accent, "stroke-width": 1.8, fill: "none" }) +
    label(block.left + block.width + 14, 24, "light", 12, theme.accent)
  );
}

/** The metal is far thicker than the layers: it ends in a break line. */
function metalBlock(id: string, y: number, theme: Theme): string {
  const bottom = y + metalHeight - 8;
  let edge = "";
  const teeth = 10;
  for (let k = 0; k <= teeth; k++) {
    const x = block.left + block.width - (block.width * k) / teeth;
    edge += `L${x.toFixed(1)} ${bottom + (k % 2 === 0 ? 4 : -4)}`;
  }
  const d = `M${block.left} ${y}H${block.left + block.width}${edge}Z`;
  return (
    element("path", { d, fill: theme.metal, stroke: theme.ink, "stroke-width": 0.8 }) +
    element("path", { d, fill: `url(#${id}-metal)`, opacity: 0.35 })
  );
}

/** A round length that is about a third of the layers. */
function scaleBar(scale: number, total: number, theme: Theme): string {
  const rough = total / 3;
  const power = 10 ** Math.floor(Math.log10(rough));
  const length = ([5, 2, 1].find((m) => m * power <= rough) ?? 1) * power;
  const [x, top] = [block.left - 12, lightHeight];
  const bottom = top + length * scale;
  return (
    element("path", {
      d: `M${x - 4} ${top}h8M${x} ${top}V${bottom}M${x - 4} ${bottom}h8`,
      stroke: theme.muted,
      fill: "none",
    }) + label(x - 8, (top + bottom) / 2 + 4, `${shortNumber(length)} µm`, 11, theme.muted, { "text-anchor": "end" })
  );
}
