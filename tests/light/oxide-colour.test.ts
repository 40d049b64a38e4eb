import { describe, expect, it } from "vitest";
import { visibleIndex } from "#library";
import {
  bareAbsorptance,
  colourMatching,
  filmReflectance,
  mixedIndex,
  oxideColour,
  oxideColours,
  type SeenColour,
  SPECTRUM,
  seenColour,
} from "#light";
import { isSource } from "#sources";
import { InvalidInput } from "#units";

const iron = { n: 2.94, k: 2.99 };
const green = 550e-9;

describe("reflectance of a film on metal", () => {
  it("is the bare metal without a film, and with a film of nothing", () => {
    // Fresnel at normal incidence: 1 − 4n/((n + 1)² + k²)
    for (const metal of [iron, { n: 0.351, k: 7.033 }]) {
      const bare = 1 - bareAbsorptance(metal.n, metal.k);
      expect(filmReflectance({ n: 2.4, k: 0.1 }, metal, 0, green)).toBeCloseTo(bare, 12);
      expect(filmReflectance({ n: 1, k: 0 }, metal, 80e-9, green)).toBeCloseTo(bare, 12);
    }
  });

  it("is the film alone where the film swallows everything", () => {
    const film = { n: 2.4, k: 0.5 };
    expect(filmReflectance(film, iron, 20e-6, green)).toBeCloseTo(1 - bareAbsorptance(2.4, 0.5), 9);
  });

  it("repeats after half a wavelength in a clear film, and is ((n² − n_s)/(n² + n_s))² at a quarter", () => {
    // Born and Wolf, section 1.6: quarter-wave film of index n on a clear body n_s
    const half = green / (2 * 1.38);
    const glass = { n: 1.52, k: 0 };
    expect(filmReflectance({ n: 1.38, k: 0 }, glass, half, green)).toBeCloseTo(0.52 ** 2 / 2.52 ** 2, 12);
    const quarter = ((1.38 ** 2 - 1.52) / (1.38 ** 2 + 1.52)) ** 2;
    expect(filmReflectance({ n: 1.38, k: 0 }, glass, half / 2, green)).toBeCloseTo(quarter, 12);
  });

  it("averages to the incoherent sum over a whole turn of a clear film on metal", () => {
    // mean of the Airy function over the phase: (R₁ + R₂ − 2R₁R₂)/(1 − R₁R₂), here R₂ as seen from inside the film
    const film = { n: 2.2, k: 0 };
    const r1 = (1.2 / 3.2) ** 2;
    const r2 = ((film.n - iron.n) ** 2 + iron.k ** 2) / ((film.n + iron.n) ** 2 + iron.k ** 2);
    const turn = green / (2 * film.n);
    let mean = 0;
    for (let i = 0; i < 64; i++) mean += filmReflectance(film, iron, (turn * i) / 64, green) / 64;
    expect(mean).toBeCloseTo((r1 + r2 - 2 * r1 * r2) / (1 - r1 * r2), 9);
  });

  it("never gives back more than it gets, in either sense of the phase", () => {
    for (let d = 0; d < 400; d += 7)
      for (const k of [0, 0.3]) {
        const r = filmReflectance({ n: 2.6, k }, iron, d * 1e-9, green);
        expect(r).toBeGreaterThanOrEqual(0);
        expect(r).toBeLessThan(1);
      }
    // A thin film of higher index on a reflecting metal moves the first minimum to longer waves as it grows.
    const dip = (d: number) => {
      let best = [0, 1];
      for (let w = 300; w < 900; w += 5) {
        const r = filmReflectance({ n: 2.6, k: 0 }, iron, d * 1e-9, w * 1e-9);
        if (r < best[1]!) best = [w, r];
      }
      return best[0]!;
    };
    expect(dip(45)).toBeGreaterThan(dip(35));
  });

  it("mixes by permittivity and refuses what has no meaning", () => {
    const both = mixedIndex([
      { index: { n: 3, k: 0 }, share: 0.5 },
      { index: { n: 1, k: 0 }, share: 0.5 },
    ]);
    expect(both).toEqual({ n: Math.sqrt(5), k: 0 });
    const one = mixedIndex([{ index: iron, share: 1 }]);
    expect(one.n).toBeCloseTo(iron.n, 12);
    expect(one.k).toBeCloseTo(iron.k, 12);
    expect(() => filmReflectance({ n: 2, k: -1 }, iron, 0, green)).toThrow("invalid extinction coefficient: -1");
    expect(() => filmReflectance(iron, iron, -1e-9, green)).toThrow(InvalidInput);
  });
});

describe("colour in daylight", () => {
  // CIE 15, table of the 1931 2° observer: x̄, ȳ, z̄
  const table: [number, number, number, number][] = [
    [400, 0.01431, 0.000396, 0.06785],
    [420, 0.13438, 0.004, 0.6456],
    [450, 0.3362, 0.038, 1.77211],
    [480, 0.09564, 0.13902, 0.81295],
    [500, 0.0049, 0.323, 0.272],
    [520, 0.06327, 0.71, 0.07825],
    [550, 0.43345, 0.995, 0.00875],
    [580, 0.9163, 0.87, 0.00165],
    [600, 1.0622, 0.631, 0.0008],
    [620, 0.85445, 0.381, 0.00019],
    [650, 0.2835, 0.107, 0],
    [700, 0.01136, 0.004102, 0],
  ];
  it.each(table)("matches the observer at %d nm", (nm, x, y, z) => {
    const [fx, fy, fz] = colourMatching(nm);
    expect(Math.abs(fx - x)).toBeLessThan(0.03);
    expect(Math.abs(fy - y)).toBeLessThan(0.03);
    expect(Math.abs(fz - z)).toBeLessThan(0.06);
  });

  const flat = (r: number) => seenColour(new Float64Array(SPECTRUM.count).fill(r));
  it("sees a perfect reflector as white and a grey one as grey", () => {
    const white = flat(1);
    expect(white.L).toBeCloseTo(100, 9);
    for (const v of [white.red, white.green, white.blue]) expect(v).toBeCloseTo(1, 3);
    // L* of 18 % grey is 49.5 (ISO/CIE 11664-4: 116·0.18^(1/3) − 16)
    expect(flat(0.18).L).toBeCloseTo(49.496, 3);
    expect(Math.hypot(flat(0.18).a, flat(0.18).b)).toBeLessThan(1e-9);
  });

  it("sees long waves as red and short ones as blue", () => {
    const band = (from: number, to: number) =>
      seenColour(
        Array.from({ length: SPECTRUM.count }, (_, i) => {
          const nm = SPECTRUM.first + SPECTRUM.step * i;
          return nm >= from && nm <= to ? 0.9 : 0.05;
        }),
      );
    expect(band(600, 780).a).toBeGreaterThan(40);
    expect(band(600, 780).red).toBeGreaterThan(band(600, 780).blue);
    expect(band(380, 490).b).toBeLessThan(-40);
    expect(band(500, 570).a).toBeLessThan(-30);
    expect(() => seenColour([1, 1])).toThrow("invalid spectrum: 2 values");
  });
});

/** Hue in words, from CIELAB. */
function word({ L, a, b }: SeenColour): string {
  const chroma = Math.hypot(a, b);
  const hue = ((Math.atan2(b, a) * 180) / Math.PI + 360) % 360;
  if (chroma < 7.5) return "pale";
  if (hue >= 60 && hue < 105) return L < 40 ? "brown" : "gold";
  if (hue < 60) return "brown";
  if (hue >= 285) return "purple";
  if (hue > 220) return L > 70 ? "pale" : "blue";
  return "other";
}
const order = (family: string, until: number) => {
  const colours = oxideColours(family);
  const words: string[] = [];
  for (let d = 0; d <= until; d += 1) {
    const next = word(colours(d * 1e-9).colour!);
    if (words.at(-1) !== next) words.push(next);
  }
  return words;
};

describe("oxide on metal", () => {
  it("runs from gold over purple and blue to pale on titanium, in tens of nanometres (common practice, no source)", () => {
    expect(order("titanium", 90).slice(0, 6)).toEqual(["pale", "gold", "brown", "purple", "blue", "pale"]);
    const at = (nm: number) => oxideColour("titanium", nm * 1e-9).colour!;
    expect(word(at(25))).toBe("gold");
    expect(word(at(50))).toBe("purple");
    expect(word(at(60))).toBe("blue");
    expect(at(85).L).toBeGreaterThan(at(60).L + 20);
  });

  it.each(["steel", "stainless", "cast-iron"])(
    "runs from straw over brown and purple to blue on %s (common practice, no source)",
    (family) => {
      expect(order(family, 60).slice(0, 5)).toEqual(["pale", "gold", "brown", "purple", "blue"]);
    },
  );

  it("darkens copper from its own red first", () => {
    const bare = oxideColour("copper", 0).colour!;
    expect(bare.red).toBeGreaterThan(bare.blue + 0.1);
    expect(oxideColour("copper", 20e-9).colour!.L).toBeLessThan(bare.L - 20);
  });

  it("is the bare metal at nothing, and steady: a nanometre never jumps", () => {
    for (const family of ["steel", "titanium", "copper"]) {
      const colours = oxideColours(family);
      for (let d = 1; d < 150; d++) {
        const [p, q] = [colours((d - 1) * 1e-9).colour!, colours(d * 1e-9).colour!];
        expect(Math.hypot(p.L - q.L, p.a - q.a, p.b - q.b), `${family} ${d} nm`).toBeLessThan(12);
      }
      expect(colours(0).sources.every(isSource)).toBe(true);
    }
  });

  it("tells no colour where there is none, and says why", () => {
    expect(oxideColour("aluminium", 5e-9)).toMatchObject({ colour: null });
    expect(oxideColour("aluminium", 5e-9).reason).toContain("clear");
    expect(oxideColour("zinc", 5e-9).reason).toContain("observed only");
    expect(oxideColour("unobtainium", 5e-9).reason).toContain("not in the library");
    expect(() => oxideColour("steel", -1e-9)).toThrow("invalid oxide thickness");
    expect(() => visibleIndex("brass", 500)).toThrow("invalid optical material: brass");
  });
});
