import { attribute, elementsOf, tagsOf } from "./xml-tags.ts";

/** A sign in quotation marks or behind a backslash is only printed: 5 shown as 5"%" is the number 5. */
const printsPercent = (code: string): boolean => code.replace(/(?:&quot;|").*?(?:&quot;|")|\\./g, "").includes("%");

/** Numbers of formats that print per cent: two are built in (ECMA-376-1, 18.8.30), the others say so. */
function percentFormats(styles: string): Set<string> {
  const own = [...styles.matchAll(tagsOf("numFmt"))]
    .filter(([, tag]) => printsPercent(attribute(tag!, "formatCode") ?? ""))
    .map(([, tag]) => attribute(tag!, "numFmtId") ?? "");
  return new Set(["9", "10", ...own]);
}

/** Indices of the cell styles that print per cent. */
export function percentStyles(styles: string): Set<string> {
  const formats = percentFormats(styles);
  const begin = styles.indexOf("<cellXfs");
  const cells = begin < 0 ? "" : styles.slice(begin, styles.indexOf("</cellXfs", begin));
  const found = [...cells.matchAll(tagsOf("xf"))].map(([, tag]) => formats.has(attribute(tag!, "numFmtId") ?? "0"));
  return new Set(found.flatMap((isPercent, i) => (isPercent ? [String(i)] : [])));
}

const asText = (tag: string): string => `${tag.replace(/\st\s*=\s*(?:"[^"]*"|'[^']*')/, "")} t="str"`;

/**
 * A sheet with two kinds of cells made text, since a bare reading would falsify them: a share shown as 5 % is kept in
 * the file as 0.05 and becomes "5%"; the error of a formula becomes its word, such as #DIV/0!, instead of an empty cell.
 */
export function plainCells(sheet: string, percents: ReadonlySet<string>): string {
  return sheet.replace(elementsOf("c"), (whole, tag: string, inner: string) => {
    const type = attribute(tag, "t") ?? "n";
    if (type === "e") return `<c${asText(tag)}>${inner}</c>`;
    const value = /<v>([^<]+)<\/v>/.exec(inner)?.[1];
    if (type !== "n" || value === undefined || !percents.has(attribute(tag, "s") ?? "")) return whole;
    const percent = 100 * Number(value);
    return Number.isFinite(percent) ? `<c${asText(tag)}><v>${Number(percent.toPrecision(12))}%</v></c>` : whole;
  });
}
