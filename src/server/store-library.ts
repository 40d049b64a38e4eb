import { createLibrary, type Library, type LibraryFile } from "#library";
import type { LibraryRecord, Saved, StoreReader } from "#store";
import { InvalidInput } from "#units";

export type KeptFile = Saved<LibraryRecord>;

/** Our library with the files of this store in it, and the files that do not fit, each with its reason. */
export interface StoreLibrary {
  readonly library: Library;
  /** in the order in which they were taken in */
  readonly files: readonly KeptFile[];
  readonly refused: readonly { readonly kept: KeptFile; readonly error: InvalidInput }[];
}

/** The library of files that fit together, else the refusal. */
function joined(files: readonly LibraryFile[]): Library | InvalidInput {
  try {
    return createLibrary(files);
  } catch (error) {
    if (error instanceof InvalidInput) return error;
    throw error;
  }
}

export const filesOf = (kept: readonly KeptFile[]): LibraryFile[] => kept.map((k) => k.record.file);

/** Takes in every file that fits, each after those that it leans on, else by id. */
export function joinFiles(kept: readonly KeptFile[]): StoreLibrary {
  const byId = [...kept].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  const all = joined(filesOf(byId));
  if (!(all instanceof InvalidInput)) return { library: all, files: byId, refused: [] };
  const misfit = (file: LibraryFile): InvalidInput | null => {
    const found = joined([...filesOf(taken), file]);
    return found instanceof InvalidInput ? found : null;
  };
  const taken: KeptFile[] = [];
  let left = byId;
  for (let before = -1; before !== taken.length; ) {
    before = taken.length;
    const next = left.find((k) => misfit(k.record.file) === null);
    if (next === undefined) break;
    taken.push(next);
    left = left.filter((k) => k !== next);
  }
  const refused = left.flatMap((kept) => {
    const error = misfit(kept.record.file);
    return error === null ? [] : [{ kept, error }];
  });
  return { library: createLibrary(filesOf(taken)), files: taken, refused };
}

/** The library that this store works with now. */
export async function storeLibrary(reader: StoreReader): Promise<StoreLibrary> {
  return joinFiles(await reader.list("library"));
}
