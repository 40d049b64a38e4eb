import { invalid } from "#units";
import { exportArchive } from "./export-archive.ts";
import type { ExportFlags } from "./export-flags.ts";
import { exportTables } from "./export-tables.ts";

/** `export`: the tables of a trial as a workbook or CSV, or all of it as one archive; the ending says which. */
export async function exportVerb(flags: ExportFlags): Promise<string> {
  if ((flags.trial === undefined) === (flags.trialId === undefined))
    invalid(
      "trial",
      flags.trial === undefined ? "missing" : "given twice",
      "",
      "give --trial <file> or --trial-id <id>",
    );
  if (/\.(xlsx|csv)$/i.test(flags.out)) return exportTables(flags);
  if (/\.zip$/i.test(flags.out)) return exportArchive(flags);
  return invalid("out", flags.out, "", "must end in .xlsx, .csv or .crate.zip");
}
