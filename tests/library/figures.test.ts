import { describe, expect, it } from "vitest";
import { fume, fumeEntries, layerKinds, metals, setups } from "#library";
import { isSource } from "#sources";
import type { Property, TemperatureTable } from "#terms";

/** Every figure of the library with the path it stands at. */
function figures(value: unknown, path: string): [string, Property | TemperatureTable][] {
  if (value === null || typeof value !== "object") return [];
  if ("unit" in value && "validRange" in value) return [[path, value as Property | TemperatureTable]];
  return Object.entries(value).flatMap(([key, inner]) => figures(inner, `${path}.${key}`));
}

const all = [...metals, ...layerKinds].flatMap((entry) => figures(entry, entry.id));
const properties = all.filter((f): f is [string, Property] => !Array.isArray(f[1].value));
const tables = all.filter((f): f is [string, TemperatureTable] => Array.isArray(f[1].value));

describe("figures of the library", () => {
  it("are many and each names its unit, range and a source of the bibliography", () => {
    expect(properties.length).toBeGreaterThan(300);
    expect(tables.length).toBe(2 * metals.length);
    const unfit = all.filter(([, p]) => p.unit === "" || p.validRange === "" || !isSource(p.source));
    expect(unfit.map(([path]) => path)).toEqual([]);
    expect(all.filter(([, p]) => typeof p.fromMemory !== "boolean")).toEqual([]);
  });

  it("lie between their 5 % and 95 % points and above 0", () => {
    const unfit = properties.filter(([, p]) => !(p.low <= p.value && p.value <= p.high && p.low > 0));
    expect(unfit.map(([path]) => path)).toEqual([]);
  });

  it("are fixed only where low equals high, and spread otherwise", () => {
    const unfit = properties.filter(([, p]) => (p.distribution === "fixed") !== (p.low === p.high));
    expect(unfit.map(([path]) => path)).toEqual([]);
  });

  it("keep shares below 1", () => {
    for (const m of metals) expect(m.absorptance.high, m.id).toBeLessThan(1);
    for (const l of layerKinds) {
      for (const p of [l.externalReflectance, l.internalReflectance]) expect(p.high, l.id).toBeLessThan(1);
      expect(l.incubation.high, l.id).toBeLessThanOrEqual(1);
      expect(l.poissonRatio.high, l.id).toBeLessThan(0.5);
    }
  });

  it("have tables that rise in temperature, stay above 0 and reach from room temperature to near boiling", () => {
    for (const m of metals) {
      for (const t of [m.conductivity, m.heatCapacity]) {
        expect(t.temperature.length).toBe(t.value.length);
        expect([...t.temperature].sort((a, b) => a - b)).toEqual(t.temperature);
        expect(new Set(t.temperature).size).toBe(t.temperature.length);
        expect(Math.min(...t.value)).toBeGreaterThan(0);
        expect(t.temperature[0]).toBeLessThanOrEqual(300);
        expect(t.temperature.at(-1)).toBeGreaterThan(0.95 * m.boilingTemperature.value);
      }
      expect(m.meltingTemperature.high, m.id).toBeLessThan(m.boilingTemperature.low);
    }
  });

  it("do not name any id twice and name only fume entries that exist", () => {
    for (const list of [metals, layerKinds, setups, fumeEntries]) {
      const ids = list.map((e) => e.id);
      expect(new Set(ids).size).toBe(ids.length);
    }
    for (const layer of layerKinds) {
      expect(layer.fume.length, layer.id).toBeGreaterThan(0);
      for (const id of [...layer.fume, ...layer.mayHold]) expect(fume(id).id).toBe(id);
    }
  });

  it("give each layer a way off and each colour class an appearance", () => {
    for (const l of layerKinds) {
      expect(l.decomposition !== null || (l.ablationTemperature !== null && l.ablationHeat !== null), l.id).toBe(true);
      expect(Object.keys(l.appearance).sort(), l.id).toEqual(Object.keys(l.optics).sort());
      if (l.ablationTemperature !== null) expect(l.decomposition, l.id).toBeNull();
    }
  });

  it("keep the colour classes in order: white scatters, dark absorbs", () => {
    for (const l of layerKinds) {
      const { white, mid, dark } = l.optics;
      if (white === undefined || mid === undefined || dark === undefined) continue;
      expect(white.absorption.value).toBeLessThan(mid.absorption.value);
      expect(mid.absorption.value).toBeLessThan(dark.absorption.value);
      expect(white.scattering.value).toBeGreaterThan(dark.scattering.value);
    }
  });

  it("show a limit with source and date beside fume substances, and stop at those for specialists", () => {
    for (const entry of fumeEntries) {
      expect(isSource(entry.source), entry.id).toBe(true);
      for (const l of entry.limits) {
        expect(isSource(l.source), `${entry.id} ${l.substance}`).toBe(true);
        expect(l.date).toMatch(/^\d{4}(-\d\d-\d\d)?$/);
        expect(l.value).toBeGreaterThan(0);
      }
    }
    for (const id of ["lead", "chromate", "cadmium", "asbestos"]) expect(fume(id).stop, id).toBe(true);
    // OSHA 29 CFR 1910.1025 and Directive (EU) 2024/869: lead 0.05 and 0.03 mg/m³
    expect(fume("lead").limits.map((l) => l.value)).toEqual([0.05, 0.03]);
    // Directive (EU) 2024/869: diisocyanates 6 µg NCO/m³
    expect(fume("polyurethane").limits[0]!.value).toBe(0.006);
  });
});
