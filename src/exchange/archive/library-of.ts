import { createLibrary, type FumeEntry, type Library, type LibraryFile } from "#library";
import type { LibraryRecord } from "#store";
import type { LaserSetup, LayerKind, Metal } from "#terms";
import { InvalidInput } from "#units";
import { latestOf, type TrialBundle } from "./bundle.ts";
import { textsIn } from "./canonical.ts";

function fits(files: readonly unknown[]): boolean {
  try {
    createLibrary(files);
    return true;
  } catch (error) {
    // A file that no longer fits does not keep an archive from being made; it goes along as the record it is.
    if (error instanceof InvalidInput) return false;
    throw error;
  }
}

/**
 * Our library with the files handed in and those of the bundle that fit, each after what it leans on.
 * Throws InvalidInput for a file handed in that does not fit.
 */
export function libraryOf(bundle: TrialBundle, handedIn: readonly unknown[] = []): Library {
  createLibrary(handedIn);
  let taken = handedIn;
  let left: readonly LibraryFile[] = bundle.records
    .filter((r) => r.kind === "library")
    .map((r) => (r.versions.at(-1)!.record as LibraryRecord).file);
  for (let before = -1; before !== taken.length; ) {
    before = taken.length;
    const next = left.find((file) => fits([...taken, file]));
    if (next === undefined) continue;
    taken = [...taken, next];
    left = left.filter((file) => file !== next);
  }
  return createLibrary(taken);
}

export interface UsedEntries {
  readonly setups: readonly LaserSetup[];
  readonly metals: readonly Metal[];
  readonly layers: readonly LayerKind[];
  readonly fume: readonly FumeEntry[];
}

/** The entries that the trial and its part of the enquiry name, as the physics reads them: SI, each with its source. */
export function usedEntries(bundle: TrialBundle, library: Library): UsedEntries {
  const trial = latestOf(bundle, "trial")!;
  const part = latestOf(bundle, "enquiry")?.parts.find((p) => p.id === trial.part);
  const named = textsIn([trial.laser, part ?? []]);
  const layers = library.layerKinds.filter((entry) => named.has(entry.id));
  const fume = new Set(layers.flatMap((layer) => layer.fume));
  return {
    setups: library.setups.filter((entry) => named.has(entry.id)),
    metals: library.metals.filter((entry) => named.has(entry.id)),
    layers,
    fume: library.fumeEntries.filter((entry) => fume.has(entry.id)),
  };
}
