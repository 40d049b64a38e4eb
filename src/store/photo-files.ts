import { createHash, randomUUID } from "node:crypto";
import { mkdir, open, readFile, rename, rm } from "node:fs/promises";
import { join } from "node:path";
import { invalid } from "#units";

const photoMax = 30_000_000;
const mediaTypes = ["image/jpeg", "image/png", "image/heic", "image/webp", "image/tiff"];

async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, "r");
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

export interface PhotoFiles {
  /** Writes the file, makes it durable and returns its sha256. */
  keep(bytes: Uint8Array, mediaType: string): Promise<string>;
  /** Bytes of a photo, null when it is not there. Damaged bytes are refused. */
  find(sha256: string): Promise<Uint8Array | null>;
}

const hashOf = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("hex");

/** Photos as files named by the sha256 of their bytes. A file appears whole or not at all. */
export function photoFiles(folder: string): PhotoFiles {
  return {
    async keep(bytes, mediaType) {
      if (bytes.length === 0) invalid("photo", 0, "B", "must not be empty");
      if (bytes.length > photoMax) invalid("photo", bytes.length, "B", `must be at most ${photoMax} B`);
      if (!mediaTypes.includes(mediaType)) invalid("photo type", mediaType, "", `one of: ${mediaTypes.join(", ")}`);
      const sha256 = hashOf(bytes);
      await mkdir(folder, { recursive: true });
      const unfinished = join(folder, `.${sha256}.${randomUUID()}`);
      try {
        const handle = await open(unfinished, "wx");
        try {
          await handle.writeFile(bytes);
          await handle.sync();
        } finally {
          await handle.close();
        }
        await rename(unfinished, join(folder, sha256));
      } catch (error) {
        await rm(unfinished, { force: true });
        throw error;
      }
      await syncFolder(folder);
      return sha256;
    },
    async find(sha256) {
      if (!/^[0-9a-f]{64}$/.test(sha256)) invalid("photo", sha256, "", "must be a sha256 in 64 hexadecimal digits");
      const bytes = await readFile(join(folder, sha256)).catch((error: NodeJS.ErrnoException) => {
        if (error.code === "ENOENT") return null;
        throw error;
      });
      if (bytes !== null && hashOf(bytes) !== sha256) invalid("photo", sha256, "", "its file has been damaged");
      return bytes;
    },
  };
}
