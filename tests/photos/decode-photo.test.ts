import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { decodePhoto } from "#photos";
import { asSharp, corners, jpegOptions, withProperty } from "./pictures.ts";

const sample = (name: string): Uint8Array => new Uint8Array(readFileSync(new URL(`samples/${name}`, import.meta.url)));
const upright = ["red", "green", "blue", "white"];

describe("a photograph is decoded", () => {
  it("from JPEG, PNG and HEIC, with the sha256 of its bytes", async () => {
    const files = {
      jpeg: await asSharp(96, 64).jpeg(jpegOptions).toBuffer(),
      png: await asSharp(96, 64).png().toBuffer(),
      heic: sample("plain.heic"),
    };
    for (const [kind, bytes] of Object.entries(files)) {
      const before = Uint8Array.from(bytes);
      const got = await decodePhoto(bytes);
      expect(got.kind).toBe(kind);
      expect([got.photo.width, got.photo.height, got.photo.rgb.length]).toEqual([96, 64, 96 * 64 * 3]);
      expect(corners(got.photo)).toEqual(upright);
      expect(got.photo.space).toBe("srgb");
      expect(got.sha256).toBe(createHash("sha256").update(before).digest("hex"));
      expect(Buffer.compare(Buffer.from(bytes), Buffer.from(before))).toBe(0);
    }
  });

  // EXIF 2.32, tag 0112: how to turn the stored rows and columns; worked out by hand from the four quarters.
  it.each([
    [1, ["red", "green", "blue", "white"]],
    [2, ["green", "red", "white", "blue"]],
    [3, ["white", "blue", "green", "red"]],
    [4, ["blue", "white", "red", "green"]],
    [5, ["red", "blue", "green", "white"]],
    [6, ["blue", "red", "white", "green"]],
    [7, ["white", "green", "blue", "red"]],
    [8, ["green", "white", "red", "blue"]],
  ])("upright by EXIF orientation %i", async (orientation, expected) => {
    for (const picture of [asSharp(96, 64).jpeg(jpegOptions), asSharp(96, 64).png()]) {
      const { photo } = await decodePhoto(await picture.withMetadata({ orientation }).toBuffer());
      expect(corners(photo)).toEqual(expected);
      expect([photo.width, photo.height]).toEqual(orientation > 4 ? [64, 96] : [96, 64]);
    }
  });

  it("from HEIC turned once, not twice: by its property, never by its EXIF as well", async () => {
    // EXIF says orientation 6 in both; only the second carries the property, as phones write it (three quarters left).
    const still = await decodePhoto(sample("exif-turned.heic"));
    expect(corners(still.photo)).toEqual(upright);
    const turned = await decodePhoto(withProperty(sample("exif-turned.heic"), "irot", Buffer.from([3])));
    expect(corners(turned.photo)).toEqual(["blue", "red", "white", "green"]);
    expect([turned.photo.width, turned.photo.height]).toEqual([64, 96]);
  });

  it("in Display P3 with its codes as they are, by profile or by numbers", async () => {
    // CSS Color 4: sRGB red is color(display-p3 0.9175 0.2003 0.1386).
    const red = [0.9175, 0.2003, 0.1386].map((share) => Math.round(255 * share));
    const raster = [asSharp(96, 64).jpeg(jpegOptions), asSharp(96, 64).png()];
    const files = await Promise.all(raster.map((picture) => picture.withIccProfile("p3").toBuffer()));
    for (const bytes of [...files, sample("p3-profile.heic")]) {
      const { photo } = await decodePhoto(bytes);
      expect(photo.space).toBe("display-p3");
      const at = 3 * (8 * photo.width + 8);
      const off = red.map((code, k) => Math.abs(photo.rgb[at + k]! - code));
      expect(Math.max(...off)).toBeLessThanOrEqual(1);
    }
    // ISO/IEC 23091-2: primaries 12 are those of Display P3, 9 those of BT.2020, 1 those of sRGB; then curve and matrix
    const numbers = (primaries: number) =>
      withProperty(
        sample("plain.heic"),
        "colr",
        Buffer.from([...Buffer.from("nclx"), 0, primaries, 0, 13, 0, 6, 0x80]),
      );
    expect((await decodePhoto(numbers(12))).photo.space).toBe("display-p3");
    expect((await decodePhoto(numbers(1))).photo.space).toBe("srgb");
    await expect(decodePhoto(numbers(9))).rejects.toThrow("must be in sRGB or Display P3");
    expect((await decodePhoto(await asSharp(96, 64).withIccProfile("srgb").png().toBuffer())).photo.space).toBe("srgb");
  });

  it("grey, with transparency or with 16 bits as three bytes a pixel", async () => {
    const grey = await decodePhoto(await asSharp(96, 64).toColourspace("b-w").png().toBuffer());
    expect([...grey.photo.rgb.subarray(0, 3)]).toEqual(Array(3).fill(grey.photo.rgb[0]));
    expect(grey.photo.rgb.length).toBe(96 * 64 * 3);
    const clear = await decodePhoto(await asSharp(96, 64).ensureAlpha(0).png().toBuffer());
    expect(corners(clear.photo)).toEqual(["white", "white", "white", "white"]);
    const deep = await decodePhoto(await asSharp(96, 64).toColourspace("rgb16").png().toBuffer());
    expect(corners(deep.photo)).toEqual(upright);
  });
});
