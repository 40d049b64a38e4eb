import { describe, expect, it } from "vitest";
import { type BurnSite, checkBeam, incubatedThreshold } from "#gauging";
import { createRandom, type RandomStream } from "#numerics";
import { trueDiameter } from "./burns.ts";

const radius = 26e-6;
const threshold = 30e-6;

function plate(
  stream: RandomStream,
  group: { pulses?: number; defocus?: number; radius?: number; threshold?: number; ratio?: number },
): BurnSite[] {
  const truth = {
    radius: group.radius ?? radius,
    threshold: group.threshold ?? threshold,
    scatter: 0,
    energyNoise: 0,
  };
  return [0.8, 1.2, 1.5, 2, 2.8, 4, 5.5, 8, 11].map((factor) => {
    const energy = factor * truth.threshold;
    const diameter = (share: number): number => {
      const d = trueDiameter(energy, { ...truth, radius: truth.radius * share });
      return d === 0 ? 0 : d + 0.8e-6 * stream.normal();
    };
    const ratio = group.ratio ?? 1;
    return {
      energy,
      diameterX: diameter(ratio),
      diameterY: group.ratio === undefined ? null : diameter(1 / ratio),
      uncertainty: null,
      pulses: group.pulses ?? 1,
      defocus: group.defocus ?? 0,
    };
  });
}

describe("beam check of a plate", () => {
  it("gives one spot, the site without a mark counted", () => {
    const check = checkBeam(plate(createRandom(1), {}), { wavelength: null });
    expect(check.groups.length).toBe(1);
    expect(check.groups[0]).toMatchObject({ unmarked: 1, ellipse: null, cautions: [] });
    expect(check.groups[0]!.spot.radius.value / radius).toBeCloseTo(1, 1);
    expect(check).toMatchObject({ incubation: null, focus: null, cautions: [] });
  });

  it("gives incubation over pulse numbers", () => {
    const stream = createRandom(2);
    const sites = [1, 10, 100, 1000].flatMap((pulses) =>
      plate(stream, { pulses, threshold: incubatedThreshold(threshold, pulses, 0.85) }),
    );
    const { incubation, groups } = checkBeam(sites, { wavelength: null });
    expect(groups.map((g) => g.pulses)).toEqual([1, 10, 100, 1000]);
    expect(Math.abs(incubation!.exponent.value - 0.85)).toBeLessThan(0.01);
    expect(incubation!.exponent.standardError).toBeLessThan(0.02);
  });

  it("gives waist, place and M² over places along the beam, when the wavelength is known", () => {
    const stream = createRandom(3);
    const wavelength = 1.064e-6;
    const angle = (1.5 * wavelength) / (Math.PI * radius);
    const sites = [-4, -3, -2, -1, -0.4, 0, 0.4, 1, 2, 3, 4].flatMap((mm) => {
      const wide = Math.hypot(radius, angle * (mm - 0.3) * 1e-3);
      return plate(stream, { defocus: mm * 1e-3, radius: wide, threshold: threshold * (wide / radius) ** 2 });
    });
    const { focus, cautions } = checkBeam(sites, { wavelength });
    expect(focus!.waist.low).toBeLessThan(radius);
    expect(focus!.waist.high).toBeGreaterThan(radius);
    expect(focus!.position.value).toBeCloseTo(0.3e-3, 4);
    expect(focus!.beamQuality.value).toBeCloseTo(1.5, 1);
    expect(cautions).toEqual([]);
    expect(checkBeam(sites, { wavelength: null }).cautions[0]).toContain("Name the laser set-up");
  });

  it("reads elliptical marks", () => {
    const { groups } = checkBeam(plate(createRandom(4), { ratio: 1.2 }), { wavelength: null });
    expect(groups[0]!.ellipse!.ratio.value).toBeCloseTo(1.44, 1);
    expect(groups[0]!.spot.radius.value / radius).toBeCloseTo(1, 1);
  });

  it("says when a site above the threshold shows nothing, and when nothing weak was burned", () => {
    const sites = plate(createRandom(5), {});
    const blank = sites.map((site, i) => (i === 5 ? { ...site, diameterX: 0 } : site));
    expect(checkBeam(blank, { wavelength: null }).groups[0]!.cautions.join()).toContain("1 site above the threshold");
    const strong = sites.filter((site) => site.energy > 3.9 * threshold);
    const said = checkBeam(strong, { wavelength: null }).groups[0]!.cautions.join(" ");
    expect(said).toContain("No mark was burned below 2.5 thresholds");
    expect(said).toContain("span less than a factor of three");
  });

  it("refuses pulses and places that vary in one plate", () => {
    const stream = createRandom(6);
    const sites = [...plate(stream, { pulses: 10 }), ...plate(stream, { defocus: 1e-3 })];
    expect(() => checkBeam(sites, { wavelength: null })).toThrow("vary one of them in a file, not both");
    const mixed = plate(stream, { ratio: 1.1 }).map((site, i) => (i === 3 ? { ...site, diameterY: null } : site));
    expect(() => checkBeam(mixed, { wavelength: null })).toThrow("invalid second diameter: missing");
  });
});
