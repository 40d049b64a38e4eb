import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { decodePhoto } from "#photos";
import { profileSpace } from "../../src/photos/icc.ts";
import { asSharp } from "./pictures.ts";

async function profile(name: "srgb" | "p3"): Promise<Buffer> {
  const { icc } = await sharp(await asSharp(96, 64).withIccProfile(name).png().toBuffer()).metadata();
  return Buffer.from(icc!);
}

/** First byte of the entry of a tag in the profile's table: name, place, length. */
const entry = (icc: Buffer, name: string): number => icc.indexOf(name, 132, "latin1");

/** The profile with all three curves replaced. */
function withCurve(icc: Buffer, curve: Buffer): Buffer {
  const out = Buffer.concat([icc, curve]);
  for (const name of ["rTRC", "gTRC", "bTRC"]) {
    out.writeUInt32BE(icc.length, entry(icc, name) + 4);
    out.writeUInt32BE(curve.length, entry(icc, name) + 8);
  }
  out.writeUInt32BE(out.length, 0);
  return out;
}

/** `curv` of ICC.1: a table, or one number, a power times 256. */
function curv(values: readonly number[]): Buffer {
  const out = Buffer.alloc(12 + 2 * values.length);
  out.write("curv", "latin1");
  out.writeUInt32BE(values.length, 8);
  for (const [k, value] of values.entries()) out.writeUInt16BE(value, 12 + 2 * k);
  return out;
}

const srgb = (code: number): number => (code <= 0.04045 ? code / 12.92 : ((code + 0.055) / 1.055) ** 2.4);

describe("colour space of a profile", () => {
  it("is known by its numbers, with a parametric curve or a table", async () => {
    const table = curv(Array.from({ length: 1024 }, (_, k) => Math.round(65535 * srgb(k / 1023))));
    for (const [name, space] of [
      ["srgb", "srgb"],
      ["p3", "display-p3"],
    ] as const) {
      const icc = await profile(name);
      expect(profileSpace(icc)).toBe(space);
      expect(profileSpace(withCurve(icc, table))).toBe(space);
      // a power of 2.2 is off sRGB by less than 1 % of white; one of 1.8 (as print has it) or a straight line is not
      expect(profileSpace(withCurve(icc, curv([563])))).toBe(space);
      expect(profileSpace(withCurve(icc, curv([Math.round(1.8 * 256)])))).toBe("other");
      expect(profileSpace(withCurve(icc, curv([])))).toBe("other");
    }
  });

  it("is another one where primaries differ, and where nothing can be read", async () => {
    const icc = await profile("p3");
    const wide = Buffer.from(icc);
    const green = wide.readUInt32BE(entry(icc, "gXYZ") + 4);
    wide.writeInt32BE(wide.readInt32BE(green + 8) - 6000, green + 8);
    expect(profileSpace(wide)).toBe("other");
    expect(profileSpace(icc.subarray(0, 200))).toBe("other");
    expect(profileSpace(new Uint8Array(0))).toBe("other");
    expect(profileSpace(Buffer.alloc(4000, 0xff))).toBe("other");
  });

  it("is left by conversion to sRGB where it is neither sRGB nor Display P3", async () => {
    // Greys of a straight curve: code 128 is light 0.502, in sRGB code 188 (IEC 61966-2-1).
    const linear = withCurve(await profile("srgb"), curv([]));
    const grey = Buffer.alloc(3 * 96 * 64, 128);
    const jpeg = await asSharp(96, 64, grey).withIccProfile("srgb").jpeg().toBuffer();
    const { icc } = await sharp(jpeg).metadata();
    const at = jpeg.indexOf(icc!);
    expect(at).toBeGreaterThan(0);
    // The segment of the profile: marker, length, name, numbers of parts, then the profile itself.
    const start = at - 18;
    const head = Buffer.from(jpeg.subarray(start, at));
    head.writeUInt16BE(linear.length + 16, 2);
    const file = Buffer.concat([jpeg.subarray(0, start), head, linear, jpeg.subarray(at + icc!.length)]);
    const { photo } = await decodePhoto(file);
    expect(photo.space).toBe("srgb");
    expect(Math.abs(photo.rgb[3000]! - 188)).toBeLessThanOrEqual(1);
  });
});
