import { type Library, metals, layerKinds, fumeEntries, parseLibraryFile, setups } from "#library";
import type { Saved, LibraryRecord, StoreTransaction } from "#store";
import { invalid } from "#units";
import { Conflict } from "./errors.ts";
import { brokenBy, type Shelf, shelves } from "./library-dependants.ts";
import { joinFiles, type KeptFile, storeLibrary } from "./store-library.ts";

/** Most records that one refusal names. */
const NAMED = 5;

/** Entries of the library as it comes, by shelf. */
const ours: Readonly<Record<Shelf, readonly { readonly id: string }[]>> = {
  metals,
  layers: layerKinds,
  setups,
  fume: fumeEntries,
};

/** Two own files that replace one entry would make it a matter of their order which one counts. */
function refuseTwins(saved: KeptFile, others: readonly KeptFile[]): void {
  for (const shelf of shelves)
    (saved.record.file[shelf] ?? []).forEach((entry, i) => {
      const twin = others.find((o) => (o.record.file[shelf] ?? []).some((e) => e.id === entry.id));
      if (twin !== undefined)
        invalid(`${shelf}[${i}].id`, entry.id, "", `is in own file ${twin.id} already: change it there`);
    });
}

/**
 * A new version of an own library file. The set of all files is judged as it would be afterwards, and nothing is kept
 * where it does not fit. Throws InvalidInput for what is wrong in the file, Conflict where a kept record would lose what
 * it stands on, VersionConflict where the file has moved on.
 */
export async function saveLibraryFile(
  tx: StoreTransaction,
  id: string,
  version: number,
  input: unknown,
): Promise<Saved<LibraryRecord>> {
  const file = parseLibraryFile(input);
  const before = await storeLibrary(tx);
  const saved = await tx.put("library", { id, file }, version);
  const all = await tx.list("library");
  refuseTwins(
    saved,
    all.filter((k) => k.id !== id && !before.refused.some((r) => r.kept.id === k.id)),
  );
  const after = joinFiles(all);
  const mine = after.refused.find((r) => r.kept.id === id);
  if (mine !== undefined) throw mine.error;
  const lost = after.refused.find((r) => !before.refused.some((b) => b.kept.id === r.kept.id));
  if (lost !== undefined)
    throw new Conflict(`own library file ${lost.kept.id} leans on what this change takes away: ${lost.error.message}`);
  await refuseBroken(tx, before.library, after.library);
  return saved;
}

async function refuseBroken(tx: StoreTransaction, before: Library, after: Library): Promise<void> {
  const broken = await brokenBy(tx, before, after);
  if (broken.length === 0) return;
  const more = broken.length > NAMED ? ` and ${broken.length - NAMED} more` : "";
  throw new Conflict(
    `nothing was saved, for this could not be read any more: ${broken.slice(0, NAMED).join("; ")}${more}`,
  );
}

/** What an entry of a shelf is, seen from the library as it comes. */
export function stateOf(shelf: Shelf, id: string, kept: boolean): "ours" | "own" | "replaces ours" {
  if (!kept) return "ours";
  return ours[shelf].some((e) => e.id === id) ? "replaces ours" : "own";
}
