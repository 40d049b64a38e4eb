import { readFile, stat } from "node:fs/promises";
import { invalid } from "#units";

/** A file of the user's as it is, or one clear line. Larger files than `most` bytes are refused before they are read. */
export async function readBytes(path: string, name: string, most: number): Promise<Uint8Array> {
  try {
    const { size } = await stat(path);
    if (size > most) invalid(name, `${Math.ceil(size / 1e6)} MB`, "", `at most ${most / 1e6} MB are read`);
    return await readFile(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === "ENOENT") invalid(name, path, "", "there is no such file");
    if (code === "EISDIR") invalid(name, path, "", "is a folder, not a file");
    if (code === "EACCES") invalid(name, path, "", "may not be read");
    throw error;
  }
}
