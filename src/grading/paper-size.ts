import { fromSI, invalid } from "#units";

export type PaperName = "a4" | "letter" | "a3";

/** A sheet of paper, m. */
export interface Paper {
  readonly name: PaperName;
  readonly width: number;
  readonly height: number;
}

/** m that printers leave white along every edge (own choice; most leave 3 to 5 mm) */
export const paperMargin = 5e-3;

const sizes: Readonly<Record<PaperName, readonly [number, number]>> = {
  a4: [210e-3, 297e-3],
  letter: [215.9e-3, 279.4e-3],
  a3: [297e-3, 420e-3],
};

const held = (need: number, side: number): boolean => need <= side - 2 * paperMargin + 1e-9;

/**
 * The sheet, upright or on its side, that holds a drawing at true size within the margin of the printer.
 * width, height: m; `names` in order of preference. Returns null where none does. Source: ISO 216 (A4, A3), ANSI/ASME Y14.1 (letter).
 */
export function findPaper(width: number, height: number, names: readonly PaperName[] = ["a4", "a3"]): Paper | null {
  for (const name of names) {
    const [short, long] = sizes[name];
    if (held(width, short) && held(height, long)) return { name, width: short, height: long };
    if (held(width, long) && held(height, short)) return { name, width: long, height: short };
  }
  return null;
}

/** The same; throws InvalidInput in one line where no sheet holds the drawing. `what` names it. */
export function requirePaper(what: string, width: number, height: number, names?: readonly PaperName[]): Paper {
  const paper = findPaper(width, height, names);
  if (paper !== null) return paper;
  const size = [width, height].map((side) => Number(fromSI(side, "mm").toFixed(1))).join(" x ");
  const list = (names ?? ["a4", "a3"]).map((name) => (name === "letter" ? name : name.toUpperCase())).join(" or ");
  return invalid(
    what,
    size,
    "mm",
    `must fit on ${list} at true size with ${fromSI(paperMargin, "mm")} mm left white around`,
  );
}
