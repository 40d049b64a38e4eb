import { layerKinds, type Library, type LibraryFile, metals, setups } from "#library";
import { citation, isSource } from "#sources";
import type { KeptFile, KeptFiles, ShelfKey } from "../api/library.ts";

export const shelfKeys: readonly ShelfKey[] = ["metals", "layers", "setups"];

export interface Entry {
  readonly id: string;
  readonly name: string;
}

const comesWith: Readonly<Record<ShelfKey, readonly Entry[]>> = { metals, layers: layerKinds, setups };

export const entriesOf = (library: Library, shelf: ShelfKey): readonly Entry[] =>
  shelf === "layers" ? library.layerKinds : library[shelf];

/** The entry as the library comes with it, null where it has none. */
const oursOf = (shelf: ShelfKey, id: string): Entry | null => comesWith[shelf].find((e) => e.id === id) ?? null;

const holds = (file: LibraryFile, shelf: ShelfKey, id: string): boolean =>
  ((file[shelf] ?? []) as readonly Entry[]).some((e) => e.id === id);

/** True for a file whose entries were all taken out. */
export const isEmpty = (file: LibraryFile): boolean =>
  shelfKeys.every((shelf) => (file[shelf] ?? []).length === 0) && (file.fume ?? []).length === 0;

/** The own file that an entry stands in, null for one of ours. */
export const fileOfEntry = (kept: KeptFiles | undefined, shelf: ShelfKey, id: string): KeptFile | null =>
  kept?.files.findLast((k) => holds(k.file, shelf, id)) ?? null;

export type Standing = "ours" | "own" | "in place";

export const standingOf = (kept: KeptFiles | undefined, shelf: ShelfKey, id: string): Standing => {
  if (fileOfEntry(kept, shelf, id) === null) return "ours";
  return oursOf(shelf, id) === null ? "own" : "in place";
};

/** A source as it is printed: a line of the bibliography, or what an own file says of itself. */
export const sourceText = (library: Library, id: string): string =>
  isSource(id) ? citation(id) : (library.userSources.find((s) => s.id === id)?.citation ?? id);
