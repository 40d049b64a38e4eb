import { printTheme } from "#drawing";
import { type Block, drawingSvg, drawingWords, type Fact, type ReportModel, type Section } from "#report";

/** A report model as the template takes it: notes never missing, drawings drawn for white paper. */
export function reportData(model: ReportModel): unknown {
  const approver = model.approver === null ? "not yet approved" : `approved by ${model.approver}`;
  const invented = model.invented ? ["invented example"] : [];
  const head = [
    `For ${model.customer}`,
    `enquiry ${model.enquiryId}`,
    `document ${model.documentId}`,
    `revision ${model.revision}`,
    model.dateText,
    approver,
  ];
  return {
    title: model.title,
    language: model.language,
    authors: model.approver === null ? [] : [model.approver],
    keywords: [model.enquiryId, model.documentId],
    line: [...head, ...invented].join(" · "),
    footer: `${model.documentId} · revision ${model.revision} · ${model.dateText} · model version ${model.modelVersion}`,
    answer: model.answer.map(sectionData),
    details: model.details.map(sectionData),
  };
}

function sectionData(section: Section): unknown {
  return { heading: section.heading, level: section.level, blocks: section.blocks.map(blockData) };
}

const noted = (rows: readonly Fact[]): Required<Fact>[] => rows.map((row) => ({ ...row, note: row.note ?? "" }));

function blockData(block: Block): unknown {
  switch (block.kind) {
    case "facts":
    case "setting":
      return { ...block, rows: noted(block.rows) };
    case "answer":
      return { ...block, facts: noted(block.facts) };
    case "figure": {
      const svg = drawingSvg(block.drawing, block.id, printTheme);
      const alt = `${block.caption} ${drawingWords(svg)}`;
      const width_percent = {
        stack: 56,
        coupon: 54,
        "graded-coupon": 78,
        "hazard-plan": 80,
        "cost-bars": 84,
        "window-map": 92,
        bars: 96,
        "two-edge-bars": 100,
      }[block.drawing.kind];
      return { kind: "figure", caption: block.caption, svg, alt, width_percent };
    }
    default:
      return block;
  }
}
