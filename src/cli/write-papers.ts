import { join } from "node:path";
import { commissioningPdf, offerPdf, procedurePdf } from "#papers";
import { commissioningHtml, offerHtml, procedureHtml } from "#report";
import type { PartPapers } from "#workflows";
import { writeWhole } from "./files.ts";

/** Writes procedure, commissioning sheet and offer of every part as PDF and HTML; returns the files. */
export async function writePapers(folder: string, enquiry: string, papers: readonly PartPapers[]): Promise<string[]> {
  const files: string[] = [];
  const put = async (name: string, pdf: Uint8Array, html: string): Promise<void> => {
    await writeWhole(join(folder, `${name}.pdf`), pdf);
    await writeWhole(join(folder, `${name}.html`), html);
    files.push(join(folder, `${name}.pdf`), join(folder, `${name}.html`));
  };
  for (const { partId, procedure, commissioning, offer } of papers) {
    const base = `${enquiry}.${partId}`;
    if (procedure !== null) await put(`${base}.procedure`, await procedurePdf(procedure), procedureHtml(procedure));
    if (commissioning !== null)
      await put(`${base}.commissioning`, await commissioningPdf(commissioning), commissioningHtml(commissioning));
    await put(`${base}.offer`, await offerPdf(offer), offerHtml(offer));
  }
  return files;
}
