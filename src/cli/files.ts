import { mkdir, readFile, rename, stat, writeFile } from "node:fs/promises";
import { dirname } from "node:path";
import { parseJsonText } from "#contract";
import { invalid } from "#units";

/** Larger files are refused before they are read: nothing that people write by hand comes near. */
const BYTES_MAX = 40_000_000;

/** A text file of the user's, or one clear line. */
export async function readText(path: string, name: string): Promise<string> {
  try {
    const { size } = await stat(path);
    if (size > BYTES_MAX)
      invalid(name, `${(size / 1e6).toFixed(1)} MB`, "", `at most ${BYTES_MAX / 1e6} MB of text are read`);
    return await readFile(path, "utf8");
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT") invalid(name, path, "", "there is no such file");
    if (code === "EISDIR") invalid(name, path, "", "is a folder, not a file");
    if (code === "EACCES") invalid(name, path, "", "may not be read");
    throw error;
  }
}

export async function readJson(path: string, name: string): Promise<unknown> {
  return parseJsonText(await readText(path, name), name);
}

/** True for a folder; false for a file and for what is not there. */
export async function isFolder(path: string): Promise<boolean> {
  return stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );
}

/** Writes a file whole or not at all: a neighbour first, then the name. */
export async function writeWhole(path: string, content: string | Uint8Array, mode?: number): Promise<void> {
  await mkdir(dirname(path), { recursive: true });
  const draft = `${path}.${process.pid}.part`;
  await writeFile(draft, content, mode === undefined ? {} : { mode });
  await rename(draft, path);
}
