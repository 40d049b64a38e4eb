import { escapeXml, pageTheme } from "#drawing";
import type { Cell, Sentence, Sheet, SheetBlock, SheetFact, SheetRow, SheetSection } from "./model.ts";
import { sheetStyle } from "./sheet-style.ts";
import { sketchSvg } from "./sketch-svg.ts";

const e = escapeXml;

/** One self-contained page: style and drawings inside, nothing fetched, every text escaped. */
function sheetHtml(sheet: Sheet): string {
  const marks = sheet.marks.map((mark) => `<span class="mark">${e(mark)}</span>`).join("");
  const losses = sheet.losses.length === 0 ? "" : `<p>${e(`${sheet.lossLead} ${sheet.losses.join("; ")}.`)}</p>`;
  return `<!doctype html>
<html lang="${sheet.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${e(`${sheet.title}, ${sheet.documentId}`)}</title>
<style>${sheetStyle}@page { size: A4 ${sheet.upright ? "portrait" : "landscape"}; margin: 12mm; }</style>
</head>
<body class="${sheet.kind}">
<header>
<h1>${e(sheet.title)}</h1>
<p class="quiet">${e(sheet.subtitle)}</p>
${marks === "" ? "" : `<p>${marks}</p>`}
<dl class="head">${sheet.head.map((row) => `<div>${factHtml(row, sheet)}</div>`).join("")}</dl>
</header>
<main>
${sheet.rows.map((row) => rowHtml(row, sheet)).join("\n")}
${losses}</main>
<footer>${e(sheet.footer)}</footer>
</body>
</html>
`;
}

function rowHtml({ flow, columns }: SheetRow, sheet: Sheet): string {
  const shares = columns.map(({ share }) => `${share}fr`).join(" ");
  const cells = columns.map(({ sections }) => `<div>${sections.map((one) => sectionHtml(one, sheet)).join("")}</div>`);
  if (flow) return `<div class="flow">${cells.join("")}</div>`;
  return `<div class="row" style="grid-template-columns: ${shares}">${cells.join("")}</div>`;
}

function sectionHtml({ id, heading, blocks }: SheetSection, sheet: Sheet): string {
  const head = heading === "" ? "" : `<h2>${e(heading)}</h2>`;
  const inner = blocks.map((block, k) => blockHtml(block, `${id}-${k}`, sheet)).join("");
  return `<section id="${e(id)}" class="${e(id)}">${head}${inner}</section>`;
}

function blockHtml(block: SheetBlock, id: string, sheet: Sheet): string {
  switch (block.kind) {
    case "text":
      return `<p>${e(block.words)}</p>`;
    case "list":
      return `<ul>${block.items.map((item) => `<li>${e(item)}</li>`).join("")}</ul>`;
    case "ticks":
      return `<ul class="ticks">${block.items.map((item) => `<li>${tickHtml(sheet)} ${e(item)}</li>`).join("")}</ul>`;
    case "facts":
      return `<dl>${block.rows.map((row) => factHtml(row, sheet)).join("")}</dl>`;
    case "strip":
      return `<dl class="strip">${block.rows.map((row) => `<div>${factHtml(row, sheet)}</div>`).join("")}</dl>`;
    case "signs":
      return `<dl class="strip signs">${block.rows.map((row) => `<div>${factHtml({ ...row, note: block.words }, sheet)}</div>`).join("")}</dl>`;
    case "banner":
      return `<div class="banner ${block.tone}"><strong>${e(block.words)}</strong>${block.detail === "" ? "" : `<p>${e(block.detail)}</p>`}</div>`;
    case "box":
      return boxHtml(block, sheet);
    case "sketch":
      return `<figure>${sketchSvg(block.coupon, id, pageTheme)}<figcaption class="quiet">${e(block.coupon.label)}</figcaption></figure>`;
    case "table":
      return tableHtml(block, sheet);
  }
}

const tickHtml = ({ tickWords }: Sheet): string => `<span role="img" aria-label="${e(tickWords)}">☐</span>`;

function cellHtml(cell: Cell, sheet: Sheet): string {
  if (cell.kind === "text") return e(cell.words);
  if (cell.kind === "tick") return tickHtml(sheet);
  return `<span class="blank" role="img" aria-label="${e(sheet.blankWords)}">&#160;</span>${cell.unit === "" ? "" : ` ${e(cell.unit)}`}`;
}

function factHtml({ name, value, note }: SheetFact, sheet: Sheet): string {
  return `<dt>${e(name)}</dt><dd>${cellHtml(value, sheet)}${note === "" ? "" : ` <span class="note">${e(note)}</span>`}</dd>`;
}

function sentenceHtml({ words, language, mark }: Sentence, sheet: Sheet): string {
  if (language === sheet.language) return e(words);
  return `${e(mark)} <span lang="${language}">${e(words)}</span>`;
}

function boxHtml(block: Extract<SheetBlock, { kind: "box" }>, sheet: Sheet): string {
  const lead = block.lead === "" ? "" : `<p>${e(block.lead)}</p>`;
  const items = block.items.map((item) => `<li>${sentenceHtml(item, sheet)}</li>`).join("");
  const notices = block.notices.map((notice) => `<p class="note">${sentenceHtml(notice, sheet)}</p>`).join("");
  return `<div class="box" role="note"><strong>${e(block.title)}</strong>${lead}<ul>${items}</ul>${notices}</div>`;
}

function tableHtml(block: Extract<SheetBlock, { kind: "table" }>, sheet: Sheet): string {
  const right = (k: number): string => (block.columns[k]?.align === "right" ? ' class="right"' : "");
  const heads = block.columns.map(
    ({ name, unit }, k) => `<th scope="col"${right(k)}>${e(name)}${unit === "" ? "" : `<br>${e(unit)}`}</th>`,
  );
  const rows = block.rows.map(
    (cells) => `<tr>${cells.map((cell, k) => `<td${right(k)}>${cellHtml(cell, sheet)}</td>`).join("")}</tr>`,
  );
  const caption = block.caption === "" ? "" : `<caption>${e(block.caption)}</caption>`;
  return `<div class="table"><table>${caption}<thead><tr>${heads.join("")}</tr></thead><tbody>${rows.join("")}</tbody></table></div>`;
}

/** The procedure sheet as a page. On screen nothing is left out; one side of paper is only promised by its PDF. */
export const procedureHtml = (sheet: Sheet<"procedure">): string => sheetHtml(sheet);
/** The commissioning sheet as a page. */
export const commissioningHtml = (sheet: Sheet<"commissioning">): string => sheetHtml(sheet);
/** The coupon run sheet as a page. */
export const runSheetHtml = (sheet: Sheet<"run-sheet">): string => sheetHtml(sheet);
/** The offer page. */
export const offerHtml = (sheet: Sheet<"offer">): string => sheetHtml(sheet);
