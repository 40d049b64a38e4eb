import { describe, expect, it } from "vitest";
import { metalTone, oxideTint, type PatchMap, patchPicture, tintWord } from "#patch";

/** A map by hand: covered share, oxide (m) and melt (m) the same everywhere. */
function plainMap(covered: number, oxide = 0, melt = 0, char = 0): PatchMap {
  const [columns, rows] = [60, 50];
  const filled = (value: number) => new Float32Array(columns * rows).fill(value);
  const nothing = { cells: 0, residue: 0, melted: 0, discoloured: 0, peak: 0, meltDepth: 0, oxide: 0 };
  return {
    grid: { columns, rows, step: 20e-6, x0: 0, y0: 0 },
    left: filled(40e-6),
    covered: filled(covered),
    freed: filled(0),
    char: filled(char),
    bareFluence: filled(0),
    peak: filled(300),
    meltDepth: filled(melt),
    melted: filled(melt > 0 ? 1 : 0),
    oxide: filled(oxide),
    startTemperature: filled(293.15),
    thickness: 40e-6,
    residueThickness: 2e-6,
    figures: {
      whole: { ...nothing, metalCondition: 0 },
      interior: null,
      lineStarts: null,
      lineEnds: null,
      streaks: null,
    },
  };
}

const look = {
  under: "#a6a9ab",
  underName: "bare metal",
  layers: [{ name: "red rust", colour: "#8a4523", share: 1 }],
  family: "steel",
};
const two = {
  ...look,
  layers: [
    { name: "paint", colour: "#2040c0", share: 0.6 },
    { name: "primer", colour: "#c02020", share: 0.4 },
  ],
};
const mean = (pixels: Uint8ClampedArray, channel: number) => {
  let sum = 0;
  for (let i = channel; i < pixels.length; i += 4) sum += pixels[i]!;
  return sum / (pixels.length / 4);
};

describe("a picture of a patch", () => {
  it("shows the covered share of the map as area", () => {
    for (const share of [0, 0.25, 0.7, 1]) {
      const { pixels } = patchPicture(plainMap(share), look, 3);
      let covered = 0;
      for (let i = 0; i < pixels.length; i += 4) if (pixels[i]! - pixels[i + 2]! > 50) covered++;
      // Some 500 grains of residue stand for the place: a standard deviation of about 0.02.
      expect(Math.abs(covered / (pixels.length / 4) - share)).toBeLessThan(0.06);
    }
  });

  it("is the same for the same seed and another for another", () => {
    const one = patchPicture(plainMap(0.4), look, 3).pixels;
    expect(patchPicture(plainMap(0.4), look, 3).pixels).toEqual(one);
    expect(patchPicture(plainMap(0.4), look, 4).pixels).not.toEqual(one);
  });

  it("names in its legend what it shows and nothing else", () => {
    const words = (map: PatchMap) => patchPicture(map, look, 3).legend.map((l) => l.words);
    expect(words(plainMap(0))).toEqual(["bare metal"]);
    expect(words(plainMap(1))).toEqual(["red rust still there"]);
    expect(words(plainMap(1, 0, 0, 5e-6))).toEqual(["charred layer"]);
    expect(words(plainMap(0, 0, 3e-6))).toEqual(["metal that melted and ran smooth"]);
    expect(words(plainMap(0, 60e-9))).toEqual(["blue: metal under about 60 nm of oxide"]);
    expect(words(plainMap(0, 900e-9))).toEqual(["dark oxide scale on the metal"]);
    const colours = patchPicture(plainMap(0, 60e-9), look, 3).legend.map((l) => l.colour);
    expect(colours[0]).toMatch(/^#[0-9a-f]{6}$/);
    expect(words(plainMap(0.5))).toEqual(["bare metal", "red rust still there"]);
  });

  it("shows the layer that is on top of what is left", () => {
    const at = (left: number) => {
      const map = plainMap(1);
      const { pixels, legend } = patchPicture({ ...map, left: map.left.map(() => left * 40e-6) }, two, 3);
      return { blue: mean(pixels, 2) > mean(pixels, 0), words: legend.map((l) => l.words) };
    };
    expect(at(1)).toEqual({ blue: true, words: ["paint still there"] });
    expect(at(0.5)).toEqual({ blue: true, words: ["paint still there"] });
    expect(at(0.35)).toEqual({ blue: false, words: ["primer still there"] });
    expect(() => patchPicture(plainMap(1), { ...look, layers: [] }, 3)).toThrow(/^invalid layers of the picture/);
  });

  it("what does not tint keeps its tone under any oxide", () => {
    for (const family of ["aluminium", null])
      expect(patchPicture(plainMap(0, 60e-9), { ...look, family }, 3).legend.map((l) => l.words)).toEqual([
        "bare metal",
      ]);
  });

  it("melt is brighter than the matt face, char darker than the layer", () => {
    const bright = (map: PatchMap) => mean(patchPicture(map, look, 3).pixels, 1);
    expect(bright(plainMap(0, 0, 3e-6))).toBeGreaterThan(bright(plainMap(0)) + 15);
    expect(bright(plainMap(1, 0, 0, 9e-6))).toBeLessThan(bright(plainMap(1)) - 15);
  });

  it("refuses colours and scales that cannot be", () => {
    expect(() => patchPicture(plainMap(0), { ...look, under: "brown" }, 3)).toThrow(/invalid colour: brown/);
    expect(() => patchPicture(plainMap(0), look, 3, 0)).toThrow(/pixels per cell/);
  });
});

describe("tint of an oxide", () => {
  // Order of the temper colours with growing film (straw, brown, purple, blue): common practice, no source.
  it.each(["steel", "stainless", "titanium"])("%s goes from straw over brown and purple to blue", (family) => {
    const words = Array.from({ length: 61 }, (_, nm) => tintWord(family, nm * 1e-9));
    const order = words.filter((w, i) => w !== words[i - 1] && ["straw", "brown", "purple", "blue"].includes(w));
    expect(order.slice(0, 4)).toEqual(["straw", "brown", "purple", "blue"]);
    const tint = oxideTint(family, [180, 180, 180])!;
    const straw = tint(words.indexOf("straw") * 1e-9);
    const blue = tint(words.lastIndexOf("blue") * 1e-9);
    expect(straw[0]).toBeGreaterThan(straw[2] + 8);
    expect(blue[2]).toBeGreaterThan(blue[0] + 15);
    expect(tint(0)).toEqual([180, 180, 180]);
    expect(tint(5e-6)).toEqual([62, 57, 55]);
    expect(tintWord(family, 5e-6)).toBe("dark scale");
  });

  it("says why there is none on aluminium", () => {
    expect(oxideTint("aluminium", [180, 180, 180])).toBeNull();
    expect(tintWord("aluminium", 20e-9)).toMatch(/shows no tint/);
    expect(tintWord("steel", 0)).toBe("no tint to the eye");
  });

  it("metals keep their own tone", () => {
    expect(metalTone("copper")).not.toBe(metalTone("steel-low-carbon"));
    expect(metalTone("unheard-of")).toMatch(/^#/);
  });
});
