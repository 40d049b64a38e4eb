import { describe, expect, it } from "vitest";
import { createRandom, mean, quantile, type RandomStream } from "#numerics";
import {
  bareScatter,
  chooseShot,
  couponReferences,
  type CouponReferences,
  differenceGate,
  innerView,
  type LightCalibration,
  lightGates,
  meltIndexOf,
  type PatchShot,
  type PatchView,
  readPatch,
  referenceOf,
  referenceOfColour,
  residueOf,
  shadowGate,
  unmix,
} from "#grading";
import { fakePatch, pairs } from "./simulated/patch.ts";

/** One patch in several photographs: light off by σ 1 %, glare that falls off across the patch on some of them. */
function shoot(view: PatchView, glares: readonly number[], random: RandomStream): PatchShot[] {
  return glares.map((glare, k) => {
    const light = Math.exp(0.01 * random.normal());
    const slope = 0.6 * (2 * random.next() - 1);
    const rgb = view.rgb.map((v, i) => {
      const across = (Math.floor(i / 3) % view.width) / view.width - 0.5;
      return light * (v + glare * (1 + slope * across)) + 0.003 * random.normal();
    });
    return {
      photo: `photo ${k + 1}`,
      view: { ...view, rgb },
      clippedShare: 0,
      ringResidual: glare,
      lightUncertainty: 0.01,
    };
  });
}

const face = { size: 8, pixelsPerMm: 5, mottle: 0.08, brushed: 0.05 };
const references = (pair: (typeof pairs)[number], random: RandomStream): CouponReferences => {
  const bareView = fakePatch({ ...pair, ...face, share: 0 }, random).view;
  const [bare, coat] = [referenceOf(bareView), referenceOf(fakePatch({ ...pair, ...face, share: 1 }, random).view)];
  return { bare, coat, bareMelt: meltIndexOf(bareView, { bare, coat }), absolute: true };
};
const residueAlone = ({ view }: PatchShot, { bare, coat }: CouponReferences) =>
  residueOf(unmix(innerView(view), bare, coat), bareScatter(bare, coat)).value;

/** Each patch with four photographs, glare on each with chance 0.35, never on all. */
function trials(kinds: readonly number[], count: number, seed: number) {
  return Array.from({ length: count }, (_, i) => {
    const random = createRandom(seed + i);
    const pair = pairs[kinds[i % kinds.length]!]!;
    const of = references(pair, random);
    const { view, share } = fakePatch({ ...pair, ...face, share: random.next() ** 2 }, random);
    const free = random.integer(4);
    const glares = [0, 1, 2, 3].map((k) => (k === free || random.next() > 0.35 ? 0 : -0.12 * Math.log(random.open())));
    const shots = shoot(view, glares, random);
    const exact = { photo: "exact", view, clippedShare: 0, ringResidual: 0, lightUncertainty: 0 };
    const truth = readPatch(1, [exact], of);
    return { of, share, shots, glares, reading: readPatch(1, shots, of), truth };
  });
}
const DARK = [0];
const WHITE = [1];

describe("several photographs of one coupon", () => {
  it.each([
    ["dark", DARK],
    ["white", WHITE],
  ] as const)("glare never lowers the residue of a %s coat, nor raises it", (_, kinds) => {
    for (const { reading, truth, glares, share } of trials(kinds, 20, 1200)) {
      expect(glares[Number(reading.photo!.slice(6)) - 1]!).toBeLessThan(0.02);
      expect(reading.residue!.value).toBeGreaterThan(truth.residue!.value - 0.03);
      expect(reading.residue!.value).toBeLessThan(truth.residue!.value + 0.03);
      expect(Math.abs(reading.residue!.value - share)).toBeLessThan(0.08);
    }
  });

  it("taking the lowest residue instead would pick the glare on a dark coat", () => {
    const off = trials(DARK, 20, 1200).map(({ shots, of, truth }) => {
      const lowest = Math.min(...shots.map((shot) => residueAlone(shot, of)));
      return lowest - truth.residue!.value;
    });
    expect(Math.min(...off)).toBeLessThan(-0.2);
    expect(mean(off)).toBeLessThan(-0.05);
  });

  it("holds L* to 2.1 at the 95th percentile, where a single photograph loses it, and the residue as without glare", () => {
    const all = trials([0, 1, 2, 3, 4, 5], 60, 3300);
    const off = (pick: (t: (typeof all)[number]) => number) => all.map((t) => Math.abs(pick(t) - t.truth.lab!.L));
    expect(
      quantile(
        off((t) => t.reading.lightness!.value),
        0.95,
      ),
    ).toBeLessThan(2.1);
    expect(
      quantile(
        off((t) => readPatch(1, t.shots.slice(0, 1), t.of).lab!.L),
        0.95,
      ),
    ).toBeGreaterThan(5);
    expect(mean(all.map((t) => Math.abs(t.reading.residue!.value - t.share)))).toBeLessThan(0.03);
    const covered = mean(
      all.map((t) => (Math.abs(t.reading.residue!.value - t.share) <= 1.645 * t.reading.residue!.uncertainty ? 1 : 0)),
    );
    expect(covered).toBeGreaterThanOrEqual(0.86);
    const light = all.map((t) =>
      Math.abs(t.reading.lightness!.value - t.truth.lab!.L) <= 1.645 * t.reading.lightness!.uncertainty ? 1 : 0,
    );
    expect(mean(light)).toBeGreaterThanOrEqual(0.86);
  });

  it("flags a patch that only one photograph shows dark, and one that is in one photograph only", () => {
    const random = createRandom(8);
    const of = references(pairs[0], random);
    const { view } = fakePatch({ ...pairs[0], ...face, share: 0.2 }, random);
    const flag = (glares: readonly number[]) => readPatch(7, shoot(view, glares, random), of).flags.map((f) => f.gate);
    expect(flag([0, 0, 0.2, 0.1])).toEqual([]);
    expect(flag([0, 0.2, 0.1, 0.15])).toEqual(["spread"]);
    expect(flag([0])).toEqual(["one photograph"]);
    // what the next photograph leaves in doubt widens both uncertainties, as far as it may be more than plain glare
    const doubt = (glares: readonly number[]) => {
      const { lightness, residue } = readPatch(7, shoot(view, glares, createRandom(3)), of);
      return [lightness!.uncertainty, residue!.uncertainty];
    };
    const [sure, doubtful] = [doubt([0, 0]), doubt([0, 0.04])];
    expect(doubtful[0]! - sure[0]!).toBeGreaterThan(0.3);
    expect(doubtful[1]!).toBeGreaterThan(1.2 * sure[1]!);
  });

  it("leaves out shadowed and clipped photographs before it looks for the darkest", () => {
    const random = createRandom(8);
    const of = references(pairs[0], random);
    const { view } = fakePatch({ ...pairs[0], ...face, share: 0.2 }, random);
    const [light, shadow, clipped] = shoot(view, [0, 0, 0], random);
    const dark = { ...shadow!, ringResidual: -0.2, view: { ...view, rgb: view.rgb.map((v) => 0.8 * v) } };
    const burnt = { ...clipped!, clippedShare: 0.3 };
    const choice = chooseShot(7, [dark, burnt, light!]);
    expect(choice.shot!.photo).toBe("photo 1");
    expect(choice.out.map(({ gate, photo }) => [gate, photo])).toEqual([
      ["shadow", "photo 2"],
      ["clipped", "photo 3"],
    ]);
    const none = readPatch(7, [dark, burnt], of);
    expect(none).toMatchObject({ photo: null, residue: null, lightness: null, streaks: null });
    expect(none.refusals.map((r) => r.gate)).toEqual(["shadow", "clipped"]);
    expect(() => chooseShot(7, [])).toThrow("invalid photographs of patch 7: 0");
  });
});

describe("gates", () => {
  it("fire just beyond their limit, each with one sentence, and are silent at it", () => {
    expect(lightGates({ whiteClipped: 0.2, cardResidual: 0.12 })).toEqual([]);
    const both = lightGates({ whiteClipped: 0.21, cardResidual: 0.13 });
    expect(both.map((g) => g.gate)).toEqual(["clipped", "card"]);
    expect(both[0]!.sentence).toBe(
      "21 % of the white step is clipped and 20 % is the most: lock the exposure on the grey strip, a little darker, and " +
        "take the photograph again.",
    );
    expect(shadowGate(3, -0.05)).toBeNull();
    expect(shadowGate(3, 0.4)).toBeNull();
    expect(shadowGate(3, null)).toBeNull();
    expect(shadowGate(3, -0.2)!.sentence).toContain("patch 3 is 18 % darker than elsewhere");
    expect(differenceGate(8)).toBeNull();
    expect(differenceGate(7.9)!.sentence).toContain("differ by ΔE00 7.9 and 8 is the least");
    for (const { sentence } of [...both, shadowGate(3, -0.2)!, differenceGate(1)!]) {
      expect(sentence.match(/[.!?](\s|$)/g)).toHaveLength(1);
      expect(sentence).not.toMatch(/NaN|undefined|clean/);
    }
    expect(lightGates({ whiteClipped: Number.NaN, cardResidual: Number.NaN })).toHaveLength(2);
  });

  it("refuse references that look alike: not settled, never clean; what needs no reference is still read", () => {
    const bare = [0.72, 0.72, 0.72] as const;
    const coat = [0.8, 0.8, 0.78] as const;
    const { view } = fakePatch({ bare, coat, share: 0.5, ...face, size: 10 }, createRandom(2));
    const [shot] = shoot(view, [0], createRandom(3));
    const of = { bare: referenceOfColour(bare), coat: referenceOfColour(coat), bareMelt: 0, absolute: false };
    const reading = readPatch(2, [shot!], of);
    expect(reading.residue).toBeNull();
    expect(reading.refusals.map((g) => g.gate)).toEqual(["difference"]);
    expect(reading.tint).toBeNull();
    expect(reading.lab!.L).toBeGreaterThan(85);
    expect(reading.streaks).not.toBeNull();
  });
});

describe("references of a coupon", () => {
  const random = createRandom(21);
  const shots = (share: number, glares: readonly number[]) =>
    shoot(fakePatch({ ...pairs[0], ...face, share }, random).view, glares, random);
  const light = (layer: readonly [number, number, number] | null, absolute = true) =>
    ({ layer, absolute }) as unknown as LightCalibration;

  it("come from the darkest photograph, the layer standing in where no patch is untouched", () => {
    const bare = [shots(0, [0.1, 0, 0.2])];
    const own = couponReferences({ bare, coat: [shots(1, [0.2, 0.1, 0])], lights: [light(null)] });
    for (let c = 0; c < 3; c += 1) {
      expect(Math.abs(own.bare.rgb[c]! / pairs[0].bare[c]! - 1)).toBeLessThan(0.05);
      expect(Math.abs(own.coat.rgb[c]! / pairs[0].coat[c]! - 1)).toBeLessThan(0.1);
    }
    expect(own.absolute).toBe(true);
    const lights = [light([0.06, 0.06, 0.06]), light([0.04, 0.04, 0.04], false)];
    const between = couponReferences({ bare, coat: [], lights });
    expect(between.coat.rgb[0]).toBe(0.04);
    expect(between.absolute).toBe(false);
  });

  it("must be there", () => {
    const lights = [light([0.04, 0.04, 0.04])];
    expect(() => couponReferences({ bare: [], coat: [], lights })).toThrow("invalid bare reference: missing");
    const bare = [shots(0, [0])];
    expect(() => couponReferences({ bare, coat: [], lights: [light(null)] })).toThrow("invalid coated reference");
  });
});
