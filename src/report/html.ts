import { escapeXml, pageTheme } from "#drawing";
import { drawingSvg } from "./draw.ts";
import { reportStyle } from "./html-style.ts";
import type { AnswerBlock, Block, Fact, ReportModel, Section, TableBlock } from "./model.ts";

const e = escapeXml;

/** One self-contained file: style and drawings inside, nothing fetched, every text escaped. */
export function reportHtml(model: ReportModel): string {
  const approver = model.approver === null ? "not yet approved" : `approved by ${model.approver}`;
  const invented = model.invented ? '<p><span class="invented">Invented example</span></p>' : "";
  return `<!doctype html>
<html lang="${model.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">
<title>${e(`${model.title}, ${model.documentId}`)}</title>
<style>${reportStyle}</style>
</head>
<body>
<header class="report">
<h1>${e(model.title)}</h1>
<p class="quiet">${e(`For ${model.customer} · enquiry ${model.enquiryId} · document ${model.documentId} · revision ${model.revision} · ${model.dateText} · ${approver}`)}</p>
${invented}</header>
<main>
<div class="first">${model.answer.map(section).join("")}</div>
<div class="details">${model.details.map(section).join("")}</div>
</main>
<footer>${e(`Document ${model.documentId}, revision ${model.revision}, ${model.dateText}, model version ${model.modelVersion}.`)}</footer>
</body>
</html>
`;
}

function section(one: Section): string {
  const tag = `h${one.level}`;
  return `<section id="${e(one.id)}"><${tag}>${e(one.heading)}</${tag}>${one.blocks.map(block).join("")}</section>\n`;
}

function block(one: Block): string {
  switch (one.kind) {
    case "text":
      return `<p>${e(one.words)}</p>`;
    case "list":
      return list(one.items);
    case "facts":
      return facts(one.rows);
    case "cautions":
      return cautions(one.items);
    case "figure":
      return `<figure class="${one.drawing.kind}">${drawingSvg(one.drawing, one.id, pageTheme)}<figcaption>${e(one.caption)}</figcaption></figure>`;
    case "table":
      return table(one);
    case "setting":
      return `<div class="setting"><strong>${e(one.title)}</strong>${facts(one.rows)}${cautions(one.cautions)}</div>`;
    case "answer":
      return answer(one);
  }
}

function list(items: readonly string[]): string {
  return items.length === 0 ? "" : `<ul>${items.map((item) => `<li>${e(item)}</li>`).join("")}</ul>`;
}

function facts(rows: readonly Fact[]): string {
  if (rows.length === 0) return "";
  const row = ({ name, value, note }: Fact): string =>
    `<dt>${e(name)}</dt><dd>${e(value)}${note ? ` <span class="note">${e(note)}</span>` : ""}</dd>`;
  return `<dl>${rows.map(row).join("")}</dl>`;
}

function cautions(items: readonly string[]): string {
  return items.length === 0 ? "" : `<div class="cautions" role="note"><strong>Cautions</strong>${list(items)}</div>`;
}

function table(one: TableBlock): string {
  const right = (k: number): string => (one.columns[k]?.align === "right" ? ' class="right"' : "");
  const head = one.columns.map((c, k) => `<th scope="col"${right(k)}>${e(c.name)}</th>`).join("");
  const rows = one.rows.map((cells) => `<tr>${cells.map((cell, k) => `<td${right(k)}>${e(cell)}</td>`).join("")}</tr>`);
  return `${cautions(one.cautions)}<div class="table"><table><caption>${e(one.caption)}</caption><thead><tr>${head}</tr></thead><tbody>${rows.join("")}</tbody></table></div>`;
}

function answer(one: AnswerBlock): string {
  const setting = one.setting === null ? "" : `<p><span class="note">Setting:</span> ${e(one.setting)}</p>`;
  return `<article class="answer ${one.evidence}"><h3>${e(one.part)}</h3><p class="headline">${e(one.headline)}</p><p>${e(one.evidenceWords)}</p>${setting}${facts(one.facts)}${one.sentences.map((s) => `<p>${e(s)}</p>`).join("")}${cautions(one.cautions)}</article>`;
}
