import { readdir, readFile, stat } from "node:fs/promises";
import { basename, join } from "node:path";
import { photoLimits } from "#photos";
import { invalid } from "#units";

/** A file that may be a photograph. */
export interface PhotoFile {
  /** as said to a person: the name, or the path where two files share a name */
  readonly name: string;
  readonly path: string;
}

const PICTURES = /\.(jpe?g|png|hei[cf])$/i;
const MOST = 500;

/** Photographs named one by one, or all that lie in a folder, by name. Errors: InvalidInput for what is not there. */
export async function listPhotos(paths: readonly string[]): Promise<PhotoFile[]> {
  const found: string[] = [];
  for (const path of paths) {
    const what = await stat(path).catch(() => invalid("photos", path, "", "there is no such file or folder"));
    if (!what.isDirectory()) {
      found.push(path);
      continue;
    }
    const names = (await readdir(path)).filter((name) => PICTURES.test(name)).sort();
    if (names.length === 0) invalid("photos", path, "", "no JPEG, PNG or HEIC file lies in this folder");
    found.push(...names.map((name) => join(path, name)));
  }
  const files = [...new Set(found)];
  if (files.length > MOST) invalid("photos", files.length, "files", `at most ${MOST} at a time`);
  const twice = new Set(files.map((p) => basename(p)).filter((name, i, all) => all.indexOf(name) !== i));
  return files.map((path) => ({ path, name: twice.has(basename(path)) ? path : basename(path) }));
}

/** The bytes of a photograph; a file too large for one is refused before it is read. */
export async function readPhoto({ path }: PhotoFile): Promise<Uint8Array> {
  const { size } = await stat(path);
  if (size > photoLimits.bytes) invalid("photo", size, "B", `must be at most ${photoLimits.bytes} B`);
  return new Uint8Array(await readFile(path));
}
