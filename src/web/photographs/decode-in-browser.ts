import type { Photo } from "#grading";
import { Undecodable } from "./undecodable.ts";

/** Bytes of a file's head in which a colour profile is announced. */
const HEAD = 400_000;

/** Whether a JPEG or PNG carries a colour profile of its own, by the names of its segment or chunk. */
async function hasProfile(file: Blob): Promise<boolean> {
  const head = new Uint8Array(await file.slice(0, HEAD).arrayBuffer());
  const text = new TextDecoder("latin1").decode(head);
  return text.includes("ICC_PROFILE\0") || text.includes("iCCP");
}

/**
 * A picture file to an upright picture, three bytes per pixel; what is transparent is laid on white. Codes without a
 * profile are sRGB and stay as they are; with one they are taken as Display P3, which holds what phones write, so that
 * no colour is cut off. Works in a worker. Throws Undecodable.
 */
export async function decodeInBrowser(file: Blob, name: string): Promise<Photo> {
  const bitmap = await createImageBitmap(file, { imageOrientation: "from-image" }).catch(() => {
    throw new Undecodable(name);
  });
  const { width, height } = bitmap;
  const space = (await hasProfile(file)) ? "display-p3" : "srgb";
  const paper = new OffscreenCanvas(width, height).getContext("2d", {
    colorSpace: space,
    willReadFrequently: true,
    alpha: false,
  });
  if (paper === null) throw new Undecodable(name);
  paper.fillStyle = "#ffffff";
  paper.fillRect(0, 0, width, height);
  paper.drawImage(bitmap, 0, 0);
  bitmap.close();
  const { data } = paper.getImageData(0, 0, width, height, { colorSpace: space });
  const rgb = new Uint8Array(3 * width * height);
  for (let from = 0, to = 0; to < rgb.length; from += 4, to += 3) {
    rgb[to] = data[from]!;
    rgb[to + 1] = data[from + 1]!;
    rgb[to + 2] = data[from + 2]!;
  }
  return { width, height, rgb, space };
}

/** A picture in sRGB codes as a JPEG file to look at. */
export async function jpegFile({ width, height, rgb }: Photo): Promise<Blob> {
  const canvas = new OffscreenCanvas(width, height);
  const paper = canvas.getContext("2d", { alpha: false });
  if (paper === null) throw new Undecodable("picture");
  const data = new ImageData(width, height);
  for (let from = 0, to = 0; from < rgb.length; from += 3, to += 4) {
    data.data[to] = rgb[from]!;
    data.data[to + 1] = rgb[from + 1]!;
    data.data[to + 2] = rgb[from + 2]!;
    data.data[to + 3] = 255;
  }
  paper.putImageData(data, 0, 0);
  return canvas.convertToBlob({ type: "image/jpeg", quality: 0.85 });
}
