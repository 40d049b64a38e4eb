import sharp from "sharp";
import type { Photo } from "#grading";

/** A picture as a JPEG file for a person to look at; never for grading. quality: 1 to 100. Errors: none. */
export async function encodeJpeg({ width, height, rgb }: Photo, quality = 85): Promise<Uint8Array> {
  const file = await sharp(rgb, { raw: { width, height, channels: 3 } })
    .jpeg({ quality })
    .toBuffer();
  return new Uint8Array(file);
}

/** Media type of the files that photographs come in. */
export const mediaTypes = { jpeg: "image/jpeg", png: "image/png", heic: "image/heic" } as const;
