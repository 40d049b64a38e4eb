import { cautionsTable, collectTrial, latestOf, packTrial, setupOf } from "#exchange";
import { invalid } from "#units";
import { dataOf, type ExportFlags } from "./export-flags.ts";
import { writeWhole } from "./files.ts";
import { readKept } from "./known.ts";
import { loadLibrary } from "./load.ts";
import { cautionLines } from "./show.ts";
import { withStore } from "./with-store.ts";

/** All that a data folder holds of a trial, as one archive. */
export async function exportArchive(flags: ExportFlags): Promise<string> {
  const id = flags.trialId ?? invalid("trial id", "missing", "", "an archive is made of a trial in a data folder");
  const folder = dataOf(flags);
  const own = await loadLibrary(flags.library);
  // Asked first, since opening a store makes one.
  await readKept(folder, "data", async () => undefined);
  const { bundle, photosMissing } = await withStore(folder, (store) => collectTrial(store, id));
  const trial = latestOf(bundle, "trial")!;
  const setup = setupOf(bundle) ?? own.setups.find((s) => s.id === trial.laser) ?? null;
  const bytes = packTrial(bundle, setup);
  await writeWhole(flags.out, bytes);
  const { records, outcomes, answers, photos } = bundle;
  return [
    `wrote ${flags.out}: trial ${id}, ${records.length} records, ${outcomes.length} outcomes, ${answers.length} answers, ${photos.length} photos`,
    ...photosMissing.map((sum) => `  photo ${sum} is named and not in the data folder`),
    ...(setup === null ? [`  without run sheet: no library knows laser ${trial.laser}`] : []),
    "",
    ...cautionLines(cautionsTable(trial.cautions).rows.map(([line]) => String(line))),
  ].join("\n");
}
