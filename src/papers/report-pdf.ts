import type { ReportModel } from "#report";
import { setPaper } from "./compile.ts";
import { reportData } from "./report-data.ts";
import { reportTemplate } from "./template.ts";

/** The report on A4 as a tagged PDF/UA-1 file; the same model gives the same bytes. */
export async function reportPdf(model: ReportModel): Promise<Uint8Array> {
  return setPaper(reportTemplate, reportData(model));
}
