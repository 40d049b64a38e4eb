import { fontFamily } from "./lettering.ts";
import type { Theme } from "./palette.ts";
import { element, escapeXml, type XmlAttributes } from "./xml.ts";

/** What every picture takes. */
export interface PictureOptions {
  readonly theme?: Theme;
  /** Prefix of every id inside; must differ between pictures that share one page. */
  readonly id?: string;
  readonly title?: string;
  readonly description?: string;
}

export interface PictureFrame {
  readonly id: string;
  readonly title: string;
  readonly description: string;
  readonly width: number;
  readonly height: number;
  /** "mm" for pictures at true size, "" for screen units */
  readonly unit: "" | "mm";
  readonly background: string;
}

/** A whole SVG document with its name and description for readers who do not see it. */
export function picture(frame: PictureFrame, ...children: readonly string[]): string {
  const attributes: XmlAttributes = {
    xmlns: "http://www.w3.org/2000/svg",
    viewBox: `0 0 ${Number(frame.width.toFixed(3))} ${Number(frame.height.toFixed(3))}`,
    width: `${Number(frame.width.toFixed(3))}${frame.unit}`,
    height: `${Number(frame.height.toFixed(3))}${frame.unit}`,
    role: "img",
    "aria-labelledby": `${frame.id}-title ${frame.id}-desc`,
    "font-family": fontFamily,
  };
  return element(
    "svg",
    attributes,
    element("title", { id: `${frame.id}-title` }, escapeXml(frame.title)),
    element("desc", { id: `${frame.id}-desc` }, escapeXml(frame.description)),
    element("rect", { x: 0, y: 0, width: frame.width, height: frame.height, fill: frame.background }),
    ...children,
  );
}

/** Ids may come from names that people typed; keep what an id allows. */
export function cleanId(text: string): string {
  return text.replace(/[^A-Za-z0-9_-]+/g, "-");
}

/** Diagonal hatching as a pattern definition. */
export function hatch(id: string, colour: string, spacing: number, width: number, angle: number): string {
  return element(
    "pattern",
    {
      id,
      width: spacing,
      height: spacing,
      patternUnits: "userSpaceOnUse",
      patternTransform: `rotate(${angle})`,
    },
    element("line", { x1: 0, y1: 0, x2: 0, y2: spacing, stroke: colour, "stroke-width": width }),
  );
}
