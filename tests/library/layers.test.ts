import { describe, expect, it } from "vitest";
import { layerKind, layerKinds } from "#library";

const R = 8.314462618;

describe("layers", () => {
  // Temperature of 63 % conversion in time t: T = E/(R·ln(A·t)); acrylic kinetics of Stoliarov et al. 2009, from memory
  it.each([
    [60, 668],
    [1e-3, 989],
    [1e-7, 1656],
  ])("acrylic decomposes within %f s at %f K", (time, printed) => {
    const { preExponential: a, activationEnergy: e } = layerKind("acrylic").decomposition!;
    expect(Math.abs(e.value / (R * Math.log(a.value * time)) - printed)).toBeLessThan(0.5);
  });

  it("other coatings lose most of their mass between 570 and 730 K in a minute", () => {
    for (const id of ["alkyd", "epoxy-primer", "polyurethane-topcoat", "powder-coat", "rubber-residue"]) {
      const { preExponential: a, activationEnergy: e } = layerKind(id).decomposition!;
      const temperature = e.value / (R * Math.log(a.value * 60));
      expect(temperature, id).toBeGreaterThan(570);
      expect(temperature, id).toBeLessThan(730);
    }
  });

  it("coatings share one prior of the interface temperature; rust gasifies earlier, its scale later", () => {
    // own prior: median 950 K, 90 % range 700-1600 K; 80-190 kJ/mol
    for (const id of ["alkyd", "epoxy-primer", "polyurethane-topcoat", "acrylic", "powder-coat"]) {
      const { interfaceTemperature: t, interfaceActivationEnergy: e } = layerKind(id);
      expect([t.low, t.value, t.high, t.distribution]).toEqual([700, 950, 1600, "lognormal"]);
      expect([e.low, e.high]).toEqual([8e4, 1.9e5]);
    }
    expect(layerKind("red-rust").interfaceTemperature.value).toBeLessThan(950);
    expect(layerKind("mill-scale").interfaceTemperature.value).toBeGreaterThan(1600);
  });

  it("polyurethane holds to aluminium as measured", () => {
    // Liu G. et al., Laser Optoelectron. Prog. 60 (2023): local 6.3, 6.5, 7.6 MPa; complete 8.9, 9.4, 8.7 MPa
    const { low, high, value } = layerKind("polyurethane-topcoat").adhesionStrength;
    for (const measured of [6.3e6, 6.5e6, 7.6e6, 8.9e6, 9.4e6, 8.7e6]) {
      expect(measured).toBeGreaterThan(low);
      expect(measured).toBeLessThan(high);
    }
    expect(Math.abs(value - 7.9e6)).toBeLessThan(1e6);
  });

  it("only rust has pits, and only clear films and thin oxides let light out easily", () => {
    expect(layerKinds.filter((l) => l.pits !== null).map((l) => l.id)).toEqual(["red-rust"]);
    expect(layerKind("clear-lacquer").internalReflectance.value).toBe(0.04);
    expect(layerKind("oil-film").internalReflectance.value).toBe(0.04);
    for (const id of ["alkyd", "acrylic", "epoxy-primer", "red-rust"]) {
      expect(layerKind(id).internalReflectance.value, id).toBeGreaterThanOrEqual(0.55);
    }
  });

  it("layers that can stay have a temperature that harms them", () => {
    for (const id of ["epoxy-primer", "zinc-rich-primer", "zinc-coating", "aluminium-oxide", "chrome-plating"]) {
      expect(layerKind(id).damageTemperature, id).not.toBeNull();
    }
  });
});
