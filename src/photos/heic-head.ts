import { type ProfileSpace, profileSpace } from "./icc.ts";

/** What the head of a HEIC file says, read without decoding anything. */
export interface HeicHead {
  /** the file ends before what it announces */
  readonly truncated: boolean;
  /** largest picture announced, px; 0 when none is */
  readonly width: number;
  readonly height: number;
  readonly space: ProfileSpace;
}

interface Box {
  readonly name: string;
  /** first byte of the contents, first byte after them */
  readonly from: number;
  readonly to: number;
}

/** Boxes one after another; a box that reaches beyond the end is given with its announced end. */
function* boxes(view: DataView, from: number, to: number): Generator<Box> {
  let at = from;
  while (at + 8 <= to) {
    let size = view.getUint32(at);
    let head = 8;
    if (size === 1) {
      if (at + 16 > to) return;
      size = Number(view.getBigUint64(at + 8));
      head = 16;
    } else if (size === 0) size = to - at;
    if (size < head) return;
    const name = String.fromCharCode(...[4, 5, 6, 7].map((k) => view.getUint8(at + k)));
    yield { name, from: at + head, to: at + size };
    at += size;
  }
}

const find = (view: DataView, name: string, from: number, to: number): Box | null => {
  for (const box of boxes(view, from, to)) if (box.name === name && box.to <= to) return box;
  return null;
};

/** Display P3 and BT.709 primaries by their numbers in ISO/IEC 23091-2; 2 is "unspecified". */
function spaceOfNumbers(primaries: number): ProfileSpace {
  if (primaries === 12) return "display-p3";
  return primaries === 1 || primaries === 2 ? "srgb" : "other";
}

/**
 * Size, colour space and completeness of a HEIC file from its boxes. A profile goes before colour numbers; no word on
 * colour means sRGB. Errors: none. Source: ISO/IEC 14496-12 (boxes), 23008-12 (properties of pictures).
 */
export function heicHead(bytes: Uint8Array): HeicHead {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const outer = [...boxes(view, 0, bytes.length)];
  const whole = (outer.at(-1)?.to ?? 0) === bytes.length;
  const meta = outer.find(({ name, to }) => name === "meta" && to <= bytes.length);
  // `meta` has a version and flags before its boxes.
  const properties = meta && find(view, "iprp", meta.from + 4, meta.to);
  const container = properties && find(view, "ipco", properties.from, properties.to);
  let [width, height] = [0, 0];
  let byProfile: ProfileSpace | null = null;
  let byNumbers: ProfileSpace | null = null;
  for (const box of container ? boxes(view, container.from, container.to) : []) {
    if (box.to > bytes.length) break;
    if (box.name === "ispe" && box.to - box.from >= 12) {
      const [w, h] = [view.getUint32(box.from + 4), view.getUint32(box.from + 8)];
      if (w * h > width * height) [width, height] = [w, h];
    }
    if (box.name === "colr" && box.to - box.from >= 6) {
      const kind = String.fromCharCode(...bytes.subarray(box.from, box.from + 4));
      if (kind === "prof" || kind === "rICC") byProfile ??= profileSpace(bytes.subarray(box.from + 4, box.to));
      if (kind === "nclx") byNumbers ??= spaceOfNumbers(view.getUint16(box.from + 4));
    }
  }
  return { truncated: !whole || !container, width, height, space: byProfile ?? byNumbers ?? "srgb" };
}
