import { createHash } from "node:crypto";
import type { Photo } from "#grading";
import { InvalidInput, invalid, withPlace } from "#units";
import { decodeHeic } from "./decode-heic.ts";
import { decodeRaster } from "./decode-raster.ts";
import { fileKind, type PhotoKind } from "./file-kind.ts";
import { photoLimits } from "./size-limit.ts";

/** A photograph as decoded, and what it came from. */
export interface DecodedPhoto {
  readonly photo: Photo;
  readonly kind: PhotoKind;
  /** of the file's bytes, in hexadecimal digits */
  readonly sha256: string;
}

/**
 * Decodes the bytes of a photograph: JPEG, PNG or HEIC, upright, three bytes per pixel in sRGB or Display P3.
 * Size, kind and colours are judged from the head of the file, so that a small file that announces a huge picture costs
 * nothing. name: of the file, said before a refusal. bytes: at most 30 MB; picture: 64 px a side to 60 MP.
 * Throws InvalidInput in one line. Source: none.
 */
export async function decodePhoto(bytes: Uint8Array, name: string | null = null): Promise<DecodedPhoto> {
  try {
    const kind = kindOf(bytes);
    const photo = kind === "heic" ? await decodeHeic(bytes) : await decodeRaster(bytes, kind);
    return { photo, kind, sha256: createHash("sha256").update(bytes).digest("hex") };
  } catch (error) {
    throw name !== null && error instanceof InvalidInput ? withPlace(error, name) : error;
  }
}

function kindOf(bytes: Uint8Array): PhotoKind {
  if (bytes.length === 0) invalid("photo", 0, "B", "must not be empty");
  if (bytes.length > photoLimits.bytes) invalid("photo", bytes.length, "B", `must be at most ${photoLimits.bytes} B`);
  const kind = fileKind(bytes);
  if (kind === "moving") invalid("photo", "a moving picture", "", "must be a single still picture");
  if (kind === null) invalid("photo", "another kind of file", "", "must be a JPEG, PNG or HEIC picture");
  return kind;
}
