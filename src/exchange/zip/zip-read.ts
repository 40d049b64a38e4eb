import { unzipSync } from "fflate";
import { InvalidInput, invalid } from "#units";

export interface ZipLimits {
  /** most files */
  readonly files: number;
  /** most bytes of all files together, unpacked */
  readonly bytes: number;
}

/** A path that leads out of the folder, or that not every machine can hold, is refused and never mended. */
function requireInside(path: string, what: string): void {
  const steps = path.replace(/\/$/, "").split("/");
  const unusable = steps.some((s) => s === "" || s === "." || s === ".." || s === "__proto__");
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  if (unusable || path.length > 400 || /[\\:\u0000-\u001f]/.test(path))
    invalid(`${what} path`, path === "" ? '""' : path, "", "must be a plain path inside the archive");
}

/** Anything that the unpacker stumbles over, in one line. */
function orDamaged<T>(what: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (error instanceof InvalidInput) throw error;
    return invalid(what, error instanceof Error ? error.message : "unreadable", "", "is no zip archive, or damaged");
  }
}

/** Reads the directory alone: nothing is unpacked before count, sizes and paths are known to be in bounds. */
function requireBounds(bytes: Uint8Array, what: string, limits: ZipLimits): void {
  const seen = new Set<string>();
  let total = 0;
  unzipSync(bytes, {
    filter: ({ name, originalSize }) => {
      requireInside(name, what);
      if (seen.has(name)) invalid(`${what} path`, name, "", "must not stand twice in the archive");
      seen.add(name);
      total += originalSize;
      if (seen.size > limits.files) invalid(what, `over ${limits.files} files`, "", `at most ${limits.files} are read`);
      if (total > limits.bytes)
        invalid(what, `over ${limits.bytes / 1e6} MB`, "", `unpacked, at most ${limits.bytes / 1e6} MB are read`);
      return false;
    },
  });
}

/**
 * Unpacks a zip in memory, folders left out. Each file is unpacked into exactly the room that the directory states, so
 * that a directory that lies gains nothing. Throws InvalidInput for what is no zip, damaged, over a limit, and for
 * paths that are not plain.
 */
export function unzipFiles(bytes: Uint8Array, what: string, limits: ZipLimits): Map<string, Uint8Array> {
  return orDamaged(what, () => {
    requireBounds(bytes, what, limits);
    return new Map(Object.entries(unzipSync(bytes, { filter: ({ name }) => !name.endsWith("/") })));
  });
}
