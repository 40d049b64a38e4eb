import { describe, expect, it } from "vitest";
import { metalTone, oxideTint, type PatchMap, patchPicture } from "#patch";

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

const look = { metal: "#a6a9ab", layer: "#8a4523", oxideIndex: 2.4 };
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
    expect(words(plainMap(1))).toEqual(["layer still there"]);
    expect(words(plainMap(1, 0, 0, 5e-6))).toEqual(["charred layer"]);
    expect(words(plainMap(0, 0, 3e-6))).toEqual(["metal that melted and ran smooth"]);
    expect(words(plainMap(0, 60e-9))).toHaveLength(3);
    expect(words(plainMap(0.5))).toEqual(["bare metal", "layer still there"]);
  });

  it("melt is brighter than the matt face, char darker than the layer", () => {
    const bright = (map: PatchMap) => mean(patchPicture(map, look, 3).pixels, 1);
    expect(bright(plainMap(0, 0, 3e-6))).toBeGreaterThan(bright(plainMap(0)) + 15);
    expect(bright(plainMap(1, 0, 0, 9e-6))).toBeLessThan(bright(plainMap(1)) - 15);
  });

  it("refuses colours and scales that cannot be", () => {
    expect(() => patchPicture(plainMap(0), { ...look, layer: "brown" }, 3)).toThrow(/invalid colour: brown/);
    expect(() => patchPicture(plainMap(0), look, 3, 0)).toThrow(/pixels per cell/);
  });
});

describe("tint of an oxide", () => {
  // Order of the temper colours with growing film (straw, purple, blue): common practice, no source.
  it("goes from straw over purple to blue", () => {
    const metal = [180, 180, 180] as const;
    const [straw, purple, blue] = [45e-9, 55e-9, 65e-9].map((d) => oxideTint(metal, d, 2.4));
    expect(straw![0]).toBeGreaterThan(straw![2] + 15);
    expect(purple![1]).toBeLessThan(Math.min(purple![0], purple![2]) - 10);
    expect(blue![2]).toBeGreaterThan(blue![0] + 15);
    expect(oxideTint(metal, 0, 2.4)).toEqual([180, 180, 180]);
    expect(oxideTint(metal, 5e-6, 2.4)[0]).toBeLessThan(70);
  });

  it("metals keep their own tone", () => {
    expect(metalTone("copper")).not.toBe(metalTone("steel-low-carbon"));
    expect(metalTone("unheard-of")).toMatch(/^#/);
  });
});
