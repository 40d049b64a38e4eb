import type { Sheet, SheetBlock } from "#report";

export const blocksOf = (sheet: Sheet): SheetBlock[] =>
  sheet.rows.flatMap(({ columns }) => columns.flatMap(({ sections }) => sections.flatMap(({ blocks }) => blocks)));

export const section = (sheet: Sheet, id: string) => {
  const all = sheet.rows.flatMap(({ columns }) => columns.flatMap(({ sections }) => sections));
  const found = all.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no section ${id}`);
  return found;
};

/** A block of a kind in a section; the first where there are more. */
export function blockOf<Kind extends SheetBlock["kind"]>(
  sheet: Sheet,
  id: string,
  kind: Kind,
): Extract<SheetBlock, { kind: Kind }> {
  const found = section(sheet, id).blocks.find((block) => block.kind === kind);
  if (found === undefined) throw new Error(`no ${kind} in ${id}`);
  return found as Extract<SheetBlock, { kind: Kind }>;
}

/** Facts of a section as "name: value"; a blank is "____". */
export const factsOf = (sheet: Sheet, id: string): string[] =>
  section(sheet, id).blocks.flatMap((block) =>
    block.kind === "facts" || block.kind === "strip"
      ? block.rows.map(({ name, value }) => `${name}: ${value.kind === "text" ? value.words : "____"}`)
      : [],
  );

/** Every word that a reader must find on the page. */
export function shownWords(sheet: Sheet): string[] {
  const words: string[] = [sheet.title, sheet.subtitle, ...sheet.marks, sheet.footer, ...sheet.losses];
  for (const { name, value } of sheet.head) words.push(name, ...(value.kind === "text" ? [value.words] : []));
  for (const { columns } of sheet.rows)
    for (const { sections } of columns) for (const { heading } of sections) words.push(heading);
  for (const block of blocksOf(sheet)) words.push(...blockWords(block));
  return words.filter((one) => one !== "");
}

function blockWords(block: SheetBlock): string[] {
  switch (block.kind) {
    case "text":
      return [block.words];
    case "list":
    case "ticks":
      return [...block.items];
    case "facts":
    case "strip":
    case "signs":
      return block.rows.flatMap(({ name, value, note }) => [name, value.kind === "text" ? value.words : "", note]);
    case "banner":
      return [block.words, block.detail];
    case "box":
      return [
        block.title,
        block.lead,
        ...[...block.items, ...block.notices].flatMap(({ words, mark }) => [mark, words]),
      ];
    case "sketch":
      return [block.coupon.label];
    case "table":
      return [
        block.caption,
        ...block.columns.flatMap(({ name, unit }) => [name, unit]),
        ...block.rows.flat().map((cell) => (cell.kind === "text" ? cell.words : "")),
      ];
  }
}
