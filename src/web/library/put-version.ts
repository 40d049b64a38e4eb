import { useQueryClient } from "@tanstack/react-query";
import type { LibraryFile } from "#library";
import { getFileVersion, type KeptFile, putLibraryFile } from "../api/library.ts";
import { libraryKey } from "./use-library.ts";

/** Puts files into the store and has the pages read them anew. */
export function usePutFile() {
  const queries = useQueryClient();
  const put = async (id: string, version: number, file: LibraryFile): Promise<KeptFile> => {
    const saved = await putLibraryFile(id, version, file);
    await queries.invalidateQueries({ queryKey: libraryKey });
    await queries.invalidateQueries({ queryKey: ["dependants"] });
    return saved;
  };
  /** An earlier version becomes the newest. */
  const putBack = async (id: string, now: number, version: number): Promise<KeptFile> =>
    put(id, now, (await getFileVersion(id, version)).file);
  return { put, putBack };
}
