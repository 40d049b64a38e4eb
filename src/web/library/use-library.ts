import { type UseQueryResult, useQuery } from "@tanstack/react-query";
import { createLibrary, type Library, type LibraryFile } from "#library";
import { type KeptFiles, listLibraryFiles } from "../api/library.ts";
import { forgetLongWork } from "../live/use-long-work.ts";
import { allWorkers } from "../live/worker-client.ts";

const own = createLibrary([]);
let made: { readonly key: string; readonly library: Library } = { key: "[]", library: own };

/** The library of these files; both workers work with it from then on, and forget what they made with another. */
function take(files: readonly LibraryFile[]): Library {
  const key = JSON.stringify(files);
  if (key === made.key) return made.library;
  made = { key, library: createLibrary(files) };
  for (const worker of allWorkers) worker.setLibrary(files);
  forgetLongWork();
  return made.library;
}

interface Read extends KeptFiles {
  readonly library: Library;
}

/** Under this key the pages keep the own library files of the store. */
export const libraryKey = ["library-files"] as const;

export function useLibraryFiles(): UseQueryResult<Read> {
  return useQuery({
    queryKey: libraryKey,
    queryFn: async ({ signal }) => {
      const kept = await listLibraryFiles(signal);
      return { ...kept, library: take(kept.files.map((k) => k.file)) };
    },
    staleTime: 60_000,
    // A library is compared by its files, not by its look-ups.
    structuralSharing: false,
  });
}

/** Metals, layers and laser set-ups as this store knows them: ours with the user's own entries put in. */
export function useLibrary(): Library {
  return useLibraryFiles().data?.library ?? made.library;
}

/** As `useLibrary`, and null until the store's own files are read or cannot be. */
export function useSettledLibrary(): Library | null {
  const { data, isPending } = useLibraryFiles();
  return data?.library ?? (isPending ? null : made.library);
}
