import { readFileSync } from "node:fs";
import { deflateSync } from "node:zlib";
import sharp from "sharp";
import { describe, expect, it, vi } from "vitest";
import { decodePhoto, photoLimits } from "#photos";
import { InvalidInput, invalidLine } from "#units";
import { asSharp, jpegOptions } from "./pictures.ts";

const sample = (name: string): Uint8Array => new Uint8Array(readFileSync(new URL(`samples/${name}`, import.meta.url)));

async function refusal(bytes: Uint8Array): Promise<string> {
  const error = await decodePhoto(bytes, "plate.jpg").then(
    () => null,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(InvalidInput);
  const line = invalidLine(error as InvalidInput);
  expect(line).not.toContain("\n");
  return line;
}

const chunk = (name: string, data: Buffer): Buffer => {
  const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
  const out = Buffer.alloc(body.length + 8);
  out.writeUInt32BE(data.length);
  body.copy(out, 4);
  let crc = 0xffffffff;
  for (const byte of body) {
    crc ^= byte;
    for (let k = 0; k < 8; k += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  out.writeUInt32BE((crc ^ 0xffffffff) >>> 0, body.length + 4);
  return out;
};

/** A PNG of one bit a pixel whose head announces this size, whatever its data hold; further chunks after the head. */
function png(width: number, height: number, data: Buffer, ...more: Buffer[]): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width);
  head.writeUInt32BE(height, 4);
  head.set([1, 0, 0, 0, 0], 8);
  const signature = Buffer.from("\x89PNG\r\n\x1a\n", "latin1");
  return Buffer.concat([signature, chunk("IHDR", head), ...more, chunk("IDAT", data), chunk("IEND", Buffer.alloc(0))]);
}

describe("refused in one line, with the name of the file", () => {
  it("what is not a picture", async () => {
    expect(await refusal(Buffer.from("patch;residue\n1;0.2\n"))).toBe(
      "plate.jpg: invalid photo: another kind of file (must be a JPEG, PNG or HEIC picture)",
    );
    expect(await refusal(Buffer.from("<svg xmlns='http://www.w3.org/2000/svg' width='99' height='99'/>"))).toContain(
      "another kind of file",
    );
    expect(await refusal(new Uint8Array())).toBe("plate.jpg: invalid photo: 0 B (must not be empty)");
    expect(await refusal(await asSharp(96, 64).tiff().toBuffer())).toContain("another kind of file");
    expect(await refusal(await asSharp(96, 64).avif().toBuffer())).toContain("another kind of file");
  });

  it("JPEG, PNG and HEIC that end too early, wherever they end, or are damaged", async () => {
    const spy = vi.spyOn(console, "log").mockImplementation(() => {});
    const noise = Buffer.from(Uint8Array.from({ length: 200 * 150 * 3 }, (_, i) => (i * 7919) % 251));
    const files = {
      JPEG: await asSharp(200, 150, noise).jpeg(jpegOptions).toBuffer(),
      PNG: await asSharp(200, 150, noise).png().toBuffer(),
      HEIC: Buffer.from(sample("p3-profile.heic")),
    };
    for (const [kind, bytes] of Object.entries(files)) {
      for (const share of [0.05, 0.3, 0.6, 0.95, 0.99]) {
        const line = await refusal(bytes.subarray(0, Math.floor(share * bytes.length)));
        expect(line).toBe(`plate.jpg: invalid photo: ${kind} (is damaged or ends too early)`);
      }
    }
    const heic = Buffer.from(files.HEIC);
    heic.fill(0xa5, heic.indexOf("mdat", 0, "latin1") + 4);
    expect(await refusal(heic)).toContain("HEIC (is damaged");
    expect(spy).not.toHaveBeenCalled();
    spy.mockRestore();
  });

  it("1 × 1", async () => {
    expect(await refusal(await asSharp(1, 1).png().toBuffer())).toBe(
      "plate.jpg: invalid photo: 1 × 1 px (must have at least 64 px on each side)",
    );
    expect(await refusal(await asSharp(4000, 1).jpeg().toBuffer())).toContain("4000 × 1 px");
  });

  it("CMYK", async () => {
    const bytes = await asSharp(96, 64).toColourspace("cmyk").jpeg().toBuffer();
    expect(await refusal(bytes)).toContain("invalid photo: CMYK (must have red, green and blue");
  });

  it("moving pictures: GIF, animated PNG and WebP, HEIC sequences", async () => {
    const control = Buffer.alloc(8);
    control.writeUInt32BE(2);
    const pictures = [await asSharp(96, 64).png().toBuffer(), await asSharp(96, 64).negate().png().toBuffer()];
    const frames = sharp(pictures, { join: { animated: true } });
    const sequence = Buffer.from(sample("plain.heic"));
    sequence.write("hevc", 8, "latin1");
    for (const bytes of [
      await asSharp(96, 64).gif().toBuffer(),
      png(96, 64, deflateSync(Buffer.alloc(13 * 64)), chunk("acTL", control)),
      await frames.webp().toBuffer(),
      sequence,
    ]) {
      expect(await refusal(bytes)).toBe("plate.jpg: invalid photo: a moving picture (must be a single still picture)");
    }
  });

  it("more than 60 MP and files beyond 30 MB, from the head and before anything is decoded", async () => {
    const before = process.memoryUsage().rss;
    const started = process.cpuUsage();
    // 100 MP that are really there, 10 GP that would unpack from 1 MB, and JPEG and HEIC heads that lie.
    const rows = Buffer.alloc(1251 * 10_000);
    expect(await refusal(png(10_000, 10_000, deflateSync(rows)))).toBe(
      "plate.jpg: invalid photo: 100 MP (must have at most 60 MP)",
    );
    expect(await refusal(png(100_000, 100_000, deflateSync(Buffer.alloc(1_000_000))))).toContain("10000 MP");
    const jpeg = await asSharp(96, 64).jpeg(jpegOptions).toBuffer();
    const frame = jpeg.indexOf(Buffer.from([0xff, 0xc0]));
    jpeg.writeUInt16BE(50_000, frame + 5);
    jpeg.writeUInt16BE(60_000, frame + 7);
    expect(await refusal(jpeg)).toContain("3000 MP");
    const heic = Buffer.from(sample("plain.heic"));
    const size = heic.indexOf("ispe", 0, "latin1");
    heic.writeUInt32BE(20_000, size + 8);
    heic.writeUInt32BE(20_000, size + 12);
    expect(await refusal(heic)).toContain("400 MP");
    expect(await refusal(new Uint8Array(photoLimits.bytes + 1))).toContain("must be at most 30000000 B");
    expect(process.memoryUsage().rss - before).toBeLessThan(150e6);
    const used = process.cpuUsage(started);
    expect(used.user + used.system).toBeLessThan(3e6);
  });
});
