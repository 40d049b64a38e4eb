import { describe, expect, it } from "vitest";
import { citation, isSource, source, sourceList, sources } from "#sources";

describe("bibliography", () => {
  it("has one entry per id, in kebab-case, with a citation", () => {
    expect(new Set(sourceList.map((s) => s.id)).size).toBe(sourceList.length);
    for (const s of sourceList) {
      expect(s.id).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
      expect(s.citation.length).toBeGreaterThan(15);
      expect(sources[s.id]).toBe(s);
    }
  });

  it("names a year in every paper and a number in every standard", () => {
    for (const s of sourceList) {
      if (s.kind === "paper" && s.id !== "kim-jd-abstracts") expect(s.citation, s.id).toMatch(/\b(19|20)\d\d\b/);
      if (s.kind === "standard") expect(s.citation, s.id).toMatch(/^(AWS |ISO |IEC |EN |ASTM |CIE |DIN |SAE )/);
    }
  });

  it("finds an entry and refuses an unknown id", () => {
    expect(source("carslaw-jaeger-1959").kind).toBe("handbook");
    expect(citation("practice")).toBe("Common practice of the trade, no published source");
    expect(citation("en-207")).toContain("[paid document");
    expect(() => source("nobody-1900")).toThrow("unknown source id: nobody-1900");
    expect(() => source("toString")).toThrow("unknown source id: toString");
    expect(isSource("constructor")).toBe(false);
  });

  it("keeps figures without a publication apart", () => {
    expect(["practice", "memory", "own"].map((id) => source(id).kind)).toEqual(["practice", "memory", "own"]);
  });
});
