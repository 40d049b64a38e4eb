import type { Source } from "#sources";
import { isSource } from "#sources";
import type { LaserSetup, LayerKind, Metal } from "#terms";
import { InvalidInput, invalid, withPlace } from "#units";
import { completeFile } from "./complete.ts";
import type { LibraryFile } from "./file-shape.ts";
import { findById } from "./find-by-id.ts";
import type { FumeEntry } from "./fume.ts";
import * as own from "./own-files.ts";
import { parseLibraryFile } from "./parse-file.ts";

/** Metals, layers, set-ups and fume entries with their look-ups. SI throughout. */
export interface Library {
  readonly metals: readonly Metal[];
  readonly layerKinds: readonly LayerKind[];
  readonly setups: readonly LaserSetup[];
  readonly fumeEntries: readonly FumeEntry[];
  /** Sources that user files brought along; all others stand in the bibliography. */
  readonly userSources: readonly Source[];
  metal(id: string): Metal;
  layerKind(id: string): LayerKind;
  setup(id: string): LaserSetup;
  fume(id: string): FumeEntry;
}

interface Entry {
  readonly id: string;
}

/** Entries of a file put after those known, or in the place of one that they say they replace. */
function merged<T extends Entry>(
  known: readonly T[],
  added: readonly T[],
  replacing: readonly boolean[],
  group: string,
): T[] {
  const result = [...known];
  added.forEach((entry, i) => {
    const at = known.findIndex((k) => k.id === entry.id);
    if (at >= 0 && !replacing[i]) {
      invalid(`${group}[${i}].id`, entry.id, "", 'already in the library: choose another id or say "replaces": true');
    }
    if (at < 0 && replacing[i]) invalid(`${group}[${i}].id`, entry.id, "", "replaces an entry that is not there");
    if (at >= 0) result[at] = entry;
    else result.push(entry);
  });
  return result;
}

const replacing = (entries: readonly { readonly replaces?: boolean }[] = []) => entries.map((e) => e.replaces === true);

type Lists = Omit<Library, "metal" | "layerKind" | "setup" | "fume">;

function mergeFile(known: Lists, file: LibraryFile): Lists {
  const added = completeFile(file);
  const fumeEntries = merged(known.fumeEntries, added.fumeEntries, replacing(file.fume), "fume");
  added.layerKinds.forEach((layer, i) => {
    for (const id of layer.fume) {
      if (!fumeEntries.some((f) => f.id === id)) invalid(`layers[${i}].fume`, id, "", "unknown fume entry");
    }
  });
  const isNew = !isSource(file.source) && !known.userSources.some((s) => s.id === file.source);
  return {
    metals: merged(known.metals, added.metals, replacing(file.metals), "metals"),
    layerKinds: merged(known.layerKinds, added.layerKinds, replacing(file.layers), "layers"),
    setups: merged(known.setups, added.setups, replacing(file.setups), "setups"),
    fumeEntries,
    userSources: isNew
      ? [
          ...known.userSources,
          {
            id: file.source,
            citation: file.citation ?? file.source,
            kind: file.fromMemory ? "memory" : "dataset",
            note: file.note,
          },
        ]
      : known.userSources,
  };
}

/**
 * Our library with user files merged in, in their order. A file is taken whole or refused whole.
 * @throws InvalidInput with the first rule that a file breaks; `where` says which file, counted from 1
 */
export function createLibrary(userFiles: readonly unknown[]): Library {
  let lists: Lists = {
    metals: own.metals,
    layerKinds: own.layerKinds,
    setups: own.setups,
    fumeEntries: own.fumeEntries,
    userSources: [],
  };
  userFiles.forEach((input, i) => {
    try {
      lists = mergeFile(lists, parseLibraryFile(input));
    } catch (error) {
      throw error instanceof InvalidInput ? withPlace(error, `library file ${i + 1}`) : error;
    }
  });
  const { metals, layerKinds, setups, fumeEntries } = lists;
  return {
    ...lists,
    metal: (id) => findById(metals, id, "metal"),
    layerKind: (id) => findById(layerKinds, id, "layer kind"),
    setup: (id) => findById(setups, id, "laser"),
    fume: (id) => findById(fumeEntries, id, "fume entry"),
  };
}
