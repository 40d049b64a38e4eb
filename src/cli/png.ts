import { crc32, deflateSync } from "node:zlib";

const SIGNATURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);

function chunk(type: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(type, "latin1"), data]);
  const whole = Buffer.alloc(body.length + 8);
  whole.writeUInt32BE(data.length, 0);
  body.copy(whole, 4);
  whole.writeUInt32BE(crc32(body), body.length + 4);
  return whole;
}

/**
 * A PNG file of opaque pixels: 8 bits a channel, colours without alpha, no filter.
 * Units: pixels RGBA row by row, width and height in pixels; their alpha is left out.
 * Range: 1 pixel and more. Errors: none. Source: ISO/IEC 15948 (PNG).
 */
export function pngOf(width: number, height: number, pixels: Uint8ClampedArray): Uint8Array {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header.set([8, 2, 0, 0, 0], 8);
  const row = 3 * width + 1;
  const raw = Buffer.alloc(row * height);
  for (let j = 0; j < height; j++)
    for (let i = 0; i < width; i++)
      for (let c = 0; c < 3; c++) raw[j * row + 1 + 3 * i + c] = pixels[4 * (j * width + i) + c]!;
  return Buffer.concat([
    SIGNATURE,
    chunk("IHDR", header),
    chunk("IDAT", deflateSync(raw)),
    chunk("IEND", new Uint8Array(0)),
  ]);
}
