export type PhotoKind = "jpeg" | "png" | "heic";

const text = (bytes: Uint8Array, from: number, to: number): string => String.fromCharCode(...bytes.subarray(from, to));

/** What a file of bytes is by its first bytes, never by its name: a photo, a moving picture, or neither (null). */
export function fileKind(bytes: Uint8Array): PhotoKind | "moving" | null {
  if (bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff) return "jpeg";
  if (text(bytes, 0, 8) === "\x89PNG\r\n\x1a\n") return isAnimatedPng(bytes) ? "moving" : "png";
  if (text(bytes, 4, 8) === "ftyp") return heifKind(text(bytes, 8, 12));
  if (/^GIF8[79]a/.test(text(bytes, 0, 6))) return "moving";
  if (text(bytes, 0, 4) === "RIFF" && text(bytes, 8, 12) === "WEBP" && text(bytes, 12, 16) === "VP8X") {
    // bit 1 of the flags says that there are frames
    return ((bytes[20] ?? 0) & 2) === 2 ? "moving" : null;
  }
  return null;
}

/** Brands of ISO/IEC 23008-12: one picture, a sequence of them, or a film. */
function heifKind(brand: string): PhotoKind | "moving" | null {
  if (["heic", "heix", "mif1"].includes(brand)) return "heic";
  if (["hevc", "hevx", "msf1", "isom", "mp41", "mp42", "qt  ", "avis"].includes(brand)) return "moving";
  return null;
}

/** An acTL chunk before the first data makes a PNG a film. */
function isAnimatedPng(bytes: Uint8Array): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 8; at + 8 <= bytes.length; at += 12 + view.getUint32(at)) {
    const name = text(bytes, at + 4, at + 8);
    if (name === "acTL") return true;
    if (name === "IDAT") return false;
  }
  return false;
}
