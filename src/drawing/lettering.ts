import { element, escapeXml, type XmlAttributes } from "./xml.ts";

/** DejaVu Sans is what the printed papers embed; pages fall back to what the reader has. */
export const fontFamily = "DejaVu Sans, Verdana, sans-serif";

const narrow = "iljtfrI.,:;'|!()[] ";
const wide = "mwMW@%";

/** Rough width of a line in DejaVu Sans, same unit as `size`; within a tenth for ordinary words (own measurement). */
export function textWidth(text: string, size: number): number {
  let width = 0;
  for (const character of text) width += narrow.includes(character) ? 0.36 : wide.includes(character) ? 0.92 : 0.62;
  return width * size;
}

/** Lines no wider than `maxWidth`; a single word that is too long is cut with an ellipsis. */
export function wrapText(text: string, size: number, maxWidth: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).filter((w) => w !== "")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (textWidth(longer, size) <= maxWidth) {
      line = longer;
      continue;
    }
    if (line !== "") lines.push(line);
    line = fitText(word, size, maxWidth);
  }
  if (line !== "") lines.push(line);
  return lines;
}

/** The text, or its beginning with an ellipsis where it is wider than `maxWidth`. */
export function fitText(text: string, size: number, maxWidth: number): string {
  if (textWidth(text, size) <= maxWidth) return text;
  const characters = [...text];
  while (characters.length > 1 && textWidth(`${characters.join("")}…`, size) > maxWidth) characters.pop();
  return `${characters.join("").trimEnd()}…`;
}

export function label(
  x: number,
  y: number,
  text: string,
  size: number,
  fill: string,
  more: XmlAttributes = {},
): string {
  return element("text", { x, y, "font-size": size, fill, ...more }, escapeXml(text));
}
