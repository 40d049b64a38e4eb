import { InvalidInput } from "#units";
import { paperFonts } from "./fonts.ts";

/**
 * Ranges of letters that a TrueType face can print: its character map (table "cmap", format 4 or 12, both of the open
 * font format, ISO/IEC 14496-22).
 */
function covered(face: Buffer): ReadonlySet<number> {
  const found = new Set<number>();
  const map = tableAt(face, "cmap");
  for (let k = 0; k < face.readUInt16BE(map + 2); k++) {
    const at = map + face.readUInt32BE(map + 8 + 8 * k);
    const format = face.readUInt16BE(at);
    if (format === 12) addGroups(face, at, found);
    if (format === 4) addSegments(face, at, found);
  }
  return found;
}

function tableAt(face: Buffer, tag: string): number {
  for (let k = 0; k < face.readUInt16BE(4); k++) {
    const entry = 12 + 16 * k;
    if (face.toString("latin1", entry, entry + 4) === tag) return face.readUInt32BE(entry + 8);
  }
  throw new Error(`the font has no ${tag} table`);
}

function addGroups(face: Buffer, at: number, found: Set<number>): void {
  for (let k = 0; k < face.readUInt32BE(at + 12); k++) {
    const group = at + 16 + 12 * k;
    for (let code = face.readUInt32BE(group); code <= face.readUInt32BE(group + 4); code++) found.add(code);
  }
}

function addSegments(face: Buffer, at: number, found: Set<number>): void {
  const bytes = face.readUInt16BE(at + 6);
  for (let k = 0; k < bytes; k += 2) {
    const end = face.readUInt16BE(at + 14 + k);
    const start = face.readUInt16BE(at + 16 + bytes + k);
    for (let code = start; code <= end && code < 0xffff; code++) found.add(code);
  }
}

let letters: ReadonlySet<number> | null = null;

/** Regular and bold: what only one of them has would be missing from headings or from text. */
function printable(): ReadonlySet<number> {
  if (letters === null) {
    const [regular, bold] = paperFonts();
    const heavy = covered(bold!);
    letters = new Set([...covered(regular!)].filter((code) => heavy.has(code)));
  }
  return letters;
}

/** Throws InvalidInput for the first letter that the papers cannot print; a paper with gaps is refused, not printed. */
export function requirePrintable(text: string): void {
  const known = printable();
  for (const letter of text) {
    const code = letter.codePointAt(0)!;
    if (known.has(code) || letter === "\n" || letter === "\t") continue;
    const name = `U+${code.toString(16).toUpperCase().padStart(4, "0")} in "${text.slice(0, 30)}"`;
    throw new InvalidInput("letter", name, "", "the font of the papers has no such letter");
  }
}
