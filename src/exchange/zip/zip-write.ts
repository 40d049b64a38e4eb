import { zipSync, type Zippable } from "fflate";

/** Zip keeps times of the local clock; this one is the earliest it knows, the same bytes in every time zone. */
const fixedTime = (): Date => new Date(1980, 0, 1);

export interface ZipFile {
  readonly path: string;
  readonly bytes: Uint8Array;
  /** true for what does not shrink, such as photographs */
  readonly packed?: boolean;
}

/** A zip of the files in their order. The same files give the same bytes, whenever and wherever. */
export function zipFiles(files: readonly ZipFile[]): Uint8Array {
  const entries: Zippable = {};
  for (const { path, bytes, packed } of files) entries[path] = [bytes, { level: packed ? 0 : 6, mtime: fixedTime() }];
  return zipSync(entries, { mtime: fixedTime() });
}
