import sharp from "sharp";
import type { Photo } from "#grading";
import { invalid } from "#units";
import { profileSpace } from "./icc.ts";
import { photoLimits, requireSize } from "./size-limit.ts";

const refuse = (kind: string): never => invalid("photo", kind.toUpperCase(), "", "is damaged or ends too early");

/**
 * JPEG or PNG as an upright picture. Codes in sRGB or Display P3 stay as they are; other profiles are converted to sRGB;
 * what is transparent is laid on white. Throws InvalidInput. Source: libvips by sharp.
 */
export async function decodeRaster(bytes: Uint8Array, kind: "jpeg" | "png"): Promise<Photo> {
  const head = await sharp(bytes, { limitInputPixels: false })
    .metadata()
    .catch(() => refuse(kind));
  requireSize(head.width, head.height);
  if (head.space === "cmyk") invalid("photo", "CMYK", "", "must have red, green and blue; it was made for printing");
  if ((head.pages ?? 1) > 1) invalid("photo", `${head.pages} pictures`, "", "must be a single still picture");
  const space = head.icc === undefined ? "srgb" : profileSpace(head.icc);
  const { data, info } = await sharp(bytes, {
    limitInputPixels: photoLimits.pixels,
    failOn: "error",
    ignoreIcc: space !== "other",
    sequentialRead: true,
  })
    .autoOrient()
    .flatten({ background: "#ffffff" })
    .toColourspace("srgb")
    .raw({ depth: "uchar" })
    .toBuffer({ resolveWithObject: true })
    .catch(() => refuse(kind));
  if (data.length !== 3 * info.width * info.height) refuse(kind);
  const rgb = new Uint8Array(data.buffer, data.byteOffset, data.byteLength);
  return { width: info.width, height: info.height, rgb, space: space === "other" ? "srgb" : space };
}
