/// <reference path="./heic-decode.d.ts" />
import type { Photo } from "#grading";
import { invalid } from "#units";
import { heicHead } from "./heic-head.ts";
import { requireSize } from "./size-limit.ts";

const refuse = (): never => invalid("photo", "HEIC", "", "is damaged or ends too early");

/**
 * HEIC as an upright picture: the decoder turns it as the file's own property says, and the orientation in its EXIF, which
 * says the same once more, is left alone. Throws InvalidInput. Source: libheif by heic-decode.
 */
export async function decodeHeic(bytes: Uint8Array): Promise<Photo> {
  const head = heicHead(bytes);
  if (head.truncated) refuse();
  requireSize(head.width, head.height);
  if (head.space === "other") {
    invalid("photo", "HEIC", "", "must be in sRGB or Display P3; save it as JPEG and try again");
  }
  const { default: heic } = await import("heic-decode");
  return withoutChatter(async () => {
    const pictures = await heic.all({ buffer: bytes }).catch(refuse);
    try {
      const [first] = pictures;
      if (first === undefined) return refuse();
      requireSize(first.width, first.height);
      const { width, height, data } = await first.decode().catch(refuse);
      const rgb = new Uint8Array(3 * width * height);
      for (let i = 0, j = 0; i < rgb.length; i += 3, j += 4) {
        rgb[i] = data[j]!;
        rgb[i + 1] = data[j + 1]!;
        rgb[i + 2] = data[j + 2]!;
      }
      return { width, height, rgb, space: head.space === "display-p3" ? "display-p3" : "srgb" };
    } finally {
      pictures.dispose();
    }
  });
}

const chatter =
  /^(Decoding image failed|Could not (create HEIF|get image data|parse HEIF)|Error loading image|No images)/;

/** The decoder writes its faults to standard output, where the answers of the commands go; these lines are held back. */
async function withoutChatter<T>(run: () => Promise<T>): Promise<T> {
  const { log } = console;
  console.log = (...words: unknown[]) => {
    if (!chatter.test(String(words[0]))) log(...words);
  };
  try {
    return await run();
  } finally {
    console.log = log;
  }
}
