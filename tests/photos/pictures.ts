import sharp from "sharp";

/** Four quarters, w × h: red, green above; blue, white below. */
export function quarters(width: number, height: number): Buffer {
  const data = Buffer.alloc(3 * width * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const upper = y < height / 2;
      const colour = x < width / 2 ? (upper ? [255, 0, 0] : [0, 0, 255]) : upper ? [0, 255, 0] : [255, 255, 255];
      data.set(colour, 3 * (y * width + x));
    }
  }
  return data;
}

export const asSharp = (width: number, height: number, data = quarters(width, height)) =>
  sharp(data, { raw: { width, height, channels: 3 } });

export const jpegOptions = { quality: 100, chromaSubsampling: "4:4:4" } as const;

const colours = { red: [255, 0, 0], green: [0, 255, 0], blue: [0, 0, 255], white: [255, 255, 255] } as const;

/** Names of the colours in the four corners: upper left, upper right, lower left, lower right. */
export function corners(photo: { width: number; height: number; rgb: Uint8Array }, off = 6): string[] {
  const { width, height, rgb } = photo;
  return [
    [8, 8],
    [width - 9, 8],
    [8, height - 9],
    [width - 9, height - 9],
  ].map(([x, y]) => {
    const at = 3 * (y! * width + x!);
    const found = Object.entries(colours).find(([, code]) => code.every((c, k) => Math.abs(c - rgb[at + k]!) <= off));
    return found?.[0] ?? `${[...rgb.subarray(at, at + 3)]}`;
  });
}

const box = (name: string, contents: Buffer): Buffer => {
  const head = Buffer.alloc(8);
  head.writeUInt32BE(8 + contents.length);
  head.write(name, 4, "latin1");
  return Buffer.concat([head, contents]);
};

interface Found {
  readonly at: number;
  readonly size: number;
}

function find(bytes: Buffer, from: number, to: number, name: string): Found {
  for (let at = from; at < to; at += bytes.readUInt32BE(at)) {
    if (bytes.toString("latin1", at + 4, at + 8) === name) return { at, size: bytes.readUInt32BE(at) };
  }
  throw new Error(`no box ${name}`);
}

/**
 * Adds a property to the first picture of a HEIC file, as phones do: `irot` (quarter turns to the left) or `colr` numbers.
 * For files of one level of boxes as `heif-enc` writes them: 4-byte offsets, one-byte associations.
 */
export function withProperty(file: Uint8Array, name: "irot" | "colr", contents: Buffer): Buffer {
  const bytes = Buffer.from(file);
  const meta = find(bytes, 0, bytes.length, "meta");
  const inside = meta.at + 12;
  const iprp = find(bytes, inside, meta.at + meta.size, "iprp");
  const ipco = find(bytes, iprp.at + 8, iprp.at + iprp.size, "ipco");
  const ipma = find(bytes, iprp.at + 8, iprp.at + iprp.size, "ipma");
  const added = box(name, contents);
  let properties = 0;
  for (let at = ipco.at + 8; at < ipco.at + ipco.size; at += bytes.readUInt32BE(at)) properties += 1;
  const grown = added.length + 1;
  // ipma: version and flags, number of items, then item id (2), number of associations (1), associations (1 each)
  const item = ipma.at + 8 + 4 + 4;
  const last = item + 3 + bytes[item + 2]!;
  const out = Buffer.concat([
    bytes.subarray(0, ipco.at + ipco.size),
    added,
    bytes.subarray(ipco.at + ipco.size, last),
    Buffer.from([0x80 | (properties + 1)]),
    bytes.subarray(last),
  ]);
  const lengthen = (at: number, by: number): number => out.writeUInt32BE(out.readUInt32BE(at) + by, at);
  lengthen(meta.at, grown);
  lengthen(iprp.at, grown);
  lengthen(ipco.at, added.length);
  lengthen(ipma.at + added.length, 1);
  out[item + added.length + 2]! += 1;
  // iloc: version, sizes, number of items, then id (2), method (2, from version 1), data reference (2), base, extents
  const iloc = find(out, inside, meta.at + meta.size + grown, "iloc");
  const baseSize = out[iloc.at + 13]! >> 4;
  const items = out.readUInt16BE(iloc.at + 14);
  let at = iloc.at + 16;
  for (let k = 0; k < items; k += 1) {
    at += (out[iloc.at + 8]! > 0 ? 6 : 4) + baseSize;
    const extents = out.readUInt16BE(at);
    at += 2;
    for (let e = 0; e < extents; e += 1, at += 8) lengthen(at, grown);
  }
  return out;
}
