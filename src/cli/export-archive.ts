import { archiveLimits, cautionsTable, collectTrial, latestOf, libraryOf, packTrial, unpackTrial } from "#exchange";
import type { TrialBundle } from "#exchange";
import { invalid } from "#units";
import { dataOf, type ExportFlags } from "./export-flags.ts";
import { readJson, writeWhole } from "./files.ts";
import { readKept } from "./known.ts";
import { onFolder } from "./on-folder.ts";
import { at, type Door, fetchBytes, RefusedByServer } from "./server-api.ts";
import { cautionLines } from "./show.ts";
import { withStore } from "./with-store.ts";

interface Packed {
  readonly bundle: TrialBundle;
  readonly bytes: Uint8Array;
  readonly photosMissing: readonly string[];
}

/** All that a data folder holds of a trial, as one archive. */
export async function exportArchive(flags: ExportFlags): Promise<string> {
  const id = flags.trialId ?? invalid("trial id", "missing", "", "an archive is made of a trial in a data folder");
  const folder = dataOf(flags);
  const handedIn = await Promise.all((flags.library ?? []).map((file) => readJson(file, "library file")));
  const { bundle, bytes, photosMissing } = await onFolder(folder, {
    async server(door) {
      const got = await packedBy(door, id);
      return handedIn.length === 0 ? got : { ...got, bytes: packTrial(got.bundle, libraryOf(got.bundle, handedIn)) };
    },
    async here(): Promise<Packed> {
      // Asked first, since opening a store makes one.
      await readKept(folder, "data", async () => undefined);
      const { bundle, photosMissing } = await withStore(folder, (store) => collectTrial(store, id));
      return { bundle, bytes: packTrial(bundle, libraryOf(bundle, handedIn)), photosMissing };
    },
  });
  const trial = latestOf(bundle, "trial")!;
  const library = libraryOf(bundle, handedIn);
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

async function packedBy(door: Door, id: string): Promise<Packed> {
  const { bytes, headers } = await fetchBytes(door, "GET", `/trials/${at(id)}/archive.crate.zip`).catch(
    (error: unknown) => {
      if (error instanceof RefusedByServer && error.status === 404)
        return invalid("trial", id, "", "is not in the data folder");
      throw error;
    },
  );
  if (bytes.length > archiveLimits.bytes) invalid("archive", bytes.length, "B", `at most ${archiveLimits.bytes} B`);
  const named = String(headers["scourlight-photos-missing"] ?? "");
  return { bundle: unpackTrial(bytes), bytes, photosMissing: named === "" ? [] : named.split(",") };
}
