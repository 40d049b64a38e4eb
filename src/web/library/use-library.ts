import { createLibrary, type Library } from "#library";

const own = createLibrary([]);

/** Metals, layers and laser set-ups as this store knows them: ours with the user's own entries put in. */
export function useLibrary(): Library {
  return own;
}
