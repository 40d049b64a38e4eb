import { describe, expect, it } from "vitest";
import { newEnquiry } from "../../src/web/enquiry/doc.ts";
import { plainProblem } from "../../src/web/enquiry/plain-problem.ts";

describe("why an enquiry cannot be computed", () => {
  const doc = newEnquiry("an-enquiry", "An enquiry");
  const bare = { ...doc, parts: [...doc.parts, { id: "part-2", name: "Lids", layers: [] }] };
  const line = "invalid parts[1].layers: a list of 0 (needs at least one layer)";

  it("names the part that has no layer", () => {
    expect(plainProblem(bare, line)).toBe('Lids has no layer: add what has to come off, or choose "unknown".');
  });

  it("leaves any other line as it is", () => {
    expect(plainProblem(bare, "invalid parts[0].area_m2: 0 m² (must be above 0)")).toMatch(/^invalid parts\[0\]/);
    expect(plainProblem(doc, line)).toBe(line);
    expect(plainProblem(doc, null)).toBe(null);
  });
});
