import { cautionsTable, collectTrial, latestOf, libraryOf, packTrial } from "#exchange";
import { invalid } from "#units";
import { dataOf, type ExportFlags } from "./export-flags.ts";
import { readJson, writeWhole } from "./files.ts";
import { readKept } from "./known.ts";
import { cautionLines } from "./show.ts";
import { withStore } from "./with-store.ts";

/** All that a data folder holds of a trial, as one archive. */
export async function exportArchive(flags: ExportFlags): Promise<string> {
  const id = flags.trialId ?? invalid("trial id", "missing", "", "an archive is made of a trial in a data folder");
  const folder = dataOf(flags);
  const handedIn = await Promise.all((flags.library ?? []).map((file) => readJson(file, "library file")));
  // Asked first, since opening a store makes one.
  await readKept(folder, "data", async () => undefined);
  const { bundle, photosMissing } = await withStore(folder, (store) => collectTrial(store, id));
  const trial = latestOf(bundle, "trial")!;
  const library = libraryOf(bundle, handedIn);
  const bytes = packTrial(bundle, library);
  await writeWhole(flags.out, bytes);
  const { records, outcomes, answers, photos } = bundle;
  return [
    `wrote ${flags.out}: trial ${id}, ${records.length} records, ${outcomes.length} outcomes, ${answers.length} answers, ${photos.length} photos`,
    ...photosMissing.map((sum) => `  photo ${sum} is named and not in the data folder`),
    ...(library.setups.every((s) => s.id !== trial.laser)
      ? [`  without run sheet: no library knows laser ${trial.laser}`]
      : []),
    "",
    ...cautionLines(cautionsTable(trial.cautions).rows.map(([line]) => String(line))),
  ].join("\n");
}
