import { createLibrary, type LibraryFile, setups } from "#library";
import type { LibraryRecord } from "#store";
import type { LaserSetup } from "#terms";
import { InvalidInput } from "#units";
import { latestOf, type TrialBundle } from "./bundle.ts";

function fromFile(file: LibraryFile, id: string): LaserSetup | null {
  try {
    return createLibrary([file]).setups.find((s) => s.id === id) ?? null;
  } catch (error) {
    // A file that leans on another one, or that no longer fits: an archive is made all the same.
    if (error instanceof InvalidInput) return null;
    throw error;
  }
}

/** The laser set-up that a trial was planned on: out of its own library files, or ours; null where neither knows it. */
export function setupOf(bundle: TrialBundle): LaserSetup | null {
  const id = latestOf(bundle, "trial")!.laser;
  for (const { kind, versions } of bundle.records) {
    if (kind !== "library") continue;
    const found = fromFile((versions.at(-1)!.record as LibraryRecord).file, id);
    if (found !== null) return found;
  }
  return setups.find((s) => s.id === id) ?? null;
}
