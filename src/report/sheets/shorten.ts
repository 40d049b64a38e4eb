import type { Sheet, SheetBlock, SheetKind, SheetRow } from "./model.ts";

function blocksOf(rows: readonly SheetRow[]): SheetBlock[] {
  return rows.flatMap(({ columns }) => columns.flatMap(({ sections }) => sections.flatMap(({ blocks }) => blocks)));
}

/** How many blocks of a sheet may be left out. */
export const spareCount = (sheet: Sheet): number => blocksOf(sheet.rows).filter(({ spare }) => spare).length;

/**
 * The sheet without its first `count` spare blocks, in the order that they say. What went is named on the sheet; a
 * section left with nothing goes too. Settings, limits, protective equipment, stop rules and cautions are never spare.
 */
export function shorten<Kind extends SheetKind>(sheet: Sheet<Kind>, count: number): Sheet<Kind> {
  const gone = blocksOf(sheet.rows)
    .flatMap((block) => (block.spare ? [block.spare] : []))
    .toSorted((a, b) => a.order - b.order)
    .slice(0, count);
  const rows = sheet.rows.map(({ flow, columns }) => ({
    flow,
    columns: columns.map(({ share, sections }) => ({
      share,
      sections: sections
        .map((section) => ({
          ...section,
          blocks: section.blocks.filter(({ spare }) => !spare || !gone.includes(spare)),
        }))
        .filter(({ blocks }) => blocks.length > 0),
    })),
  }));
  return { ...sheet, rows, losses: gone.map(({ name }) => name) };
}
