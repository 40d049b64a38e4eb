import { parseShop, resolveEnquiry, trialFromWire } from "#contract";
import { createLibrary } from "#library";
import { commissioningPdf, offerPdf, procedurePdf, reportPdf, runSheetPdf } from "#papers";
import { buildRunSheet, commissioningHtml, offerHtml, procedureHtml, runSheetHtml } from "#report";
import { InvalidInput } from "#units";
import { type PartPapers, papersOf } from "#workflows";
import type { PaperFormat, PaperMade, PaperWork, PartPaperWork, RunSheetWork } from "./paper-work.ts";

type Body = Uint8Array | string;

/** One paper as PDF or as a page, from plain data, so that it can be set on another thread. */
export async function workPaper(work: PaperWork): Promise<PaperMade> {
  try {
    if (work.kind === "report-pdf") return { body: await reportPdf(work.model), name: `${work.model.documentId}.pdf` };
    return work.kind === "run-sheet" ? await runSheet(work) : await partPaper(work);
  } catch (error) {
    if (error instanceof InvalidInput) return { refused: error.message };
    throw error;
  }
}

async function partPaper(work: PartPaperWork): Promise<PaperMade> {
  const { basis, part, paper, format } = work;
  const own = basis.parts.filter((p) => p.part.id === part);
  const [papers] = papersOf(
    { ...basis, parts: own },
    { setups: createLibrary(work.library).setups, shop: parseShop(work.shop), ...pick(work) },
  );
  if (papers === undefined) return { missing: `there is no part ${part.slice(0, 80)} in this answer` };
  const body = await bodyOf(papers, paper, format);
  if (body === null) return { missing: papers.words.join(" ") };
  return { body, name: `${basis.enquiry.id}.${part}.${paper}.${format}` };
}

const pick = ({ language, revision, dateText, approver, validUntil }: PartPaperWork) => ({
  language,
  revision,
  dateText,
  approver,
  validUntil,
});

/** null where nothing is recommended, and so nothing to work from. */
async function bodyOf(
  { procedure, commissioning, offer }: PartPapers,
  paper: PartPaperWork["paper"],
  format: PaperFormat,
): Promise<Body | null> {
  const page = format === "html";
  if (paper === "offer") return page ? offerHtml(offer) : offerPdf(offer);
  if (paper === "procedure") return procedure && (page ? procedureHtml(procedure) : procedurePdf(procedure));
  return commissioning && (page ? commissioningHtml(commissioning) : commissioningPdf(commissioning));
}

async function runSheet({
  trial: wire,
  enquiry: file,
  library: files,
  format,
  language,
  dateText,
}: RunSheetWork): Promise<PaperMade> {
  const library = createLibrary(files);
  const trial = trialFromWire(wire);
  const enquiry = resolveEnquiry(file, library);
  const part = enquiry.parts.find((p) => p.id === trial.partId);
  if (part === undefined)
    return { missing: `the part ${trial.partId} of trial ${trial.id} is not in its enquiry any more` };
  const sheet = buildRunSheet(
    {
      documentId: `${trial.id}-run`.slice(0, 60),
      revision: "1",
      dateText,
      approver: null,
      enquiryId: enquiry.id,
      customer: enquiry.customer,
      invented: enquiry.invented,
      modelVersion: trial.modelVersion,
      trial,
      setup: library.setup(trial.setupId),
      partName: part.name,
      acceptance: part.acceptance,
      cautions: wire.cautions,
    },
    language,
  );
  return {
    body: format === "html" ? runSheetHtml(sheet) : await runSheetPdf(sheet),
    name: `${trial.id}.run-sheet.${format}`,
  };
}
