import { describe, expect, it } from "vitest";
import { parseEnquiryFile } from "#contract";
import { copiedPart } from "../../src/web/archive/copied-part.ts";
import type { EnquiryDoc } from "../../src/web/enquiry/doc.ts";

const from: EnquiryDoc = {
  id: "old",
  title: "Yard job",
  customer: "Somebody",
  invented: true,
  site: { enclosed: true },
  parts: [
    { name: "First", material: "aluminium-5083", layers: [{ kind: "alkyd", colour: "mid", thickness_um: 40 }] },
    {
      id: "second",
      name: "Second",
      material: "steel-low-carbon",
      area_m2: 2,
      layers: [{ kind: "red-rust", thickness_um: 60 }],
      lead: "no",
      chromate: "yes",
      acceptance: {
        residueMax_percent: 5,
        tests: [{ kind: "adhesion", method: "ISO 4624", limit: "5 MPa", value: "7 MPa", passed: true }],
      },
    },
  ],
};
const about = { id: "fresh", enquiry: "old", part: "second", trial: "t-1" };

describe("a new enquiry from a kept trial", () => {
  it("has the part with its layers, says where it comes from, and is an enquiry", () => {
    const made = copiedPart(from, about)!;
    expect(made.parts).toHaveLength(1);
    expect(made.parts[0]!.layers).toEqual(from.parts[1]!.layers);
    expect([made.id, made.title, made.customer, made.invented]).toEqual(["fresh", "Second, as in Yard job", "", true]);
    expect(made.note).toContain("enquiry old");
    expect(made.note).toContain("trial t-1");
    expect(made.site).toBeUndefined();
    const { acceptance: _, ...plain } = made.parts[0]!;
    expect(parseEnquiryFile({ ...made, parts: [plain] }).parts[0]!.id).toBe("second");
  });

  it("asks anew what was found out of the other plate, and keeps a warning", () => {
    const [part] = copiedPart(from, about)!.parts;
    expect([part!.lead, part!.chromate]).toEqual(["unknown", "yes"]);
    expect(part!.acceptance?.residueMax_percent).toBe(5);
    expect(part!.acceptance?.tests).toEqual([
      { kind: "adhesion", method: "ISO 4624", limit: "5 MPa", value: null, passed: null },
    ]);
  });

  it("finds a part by its place, cuts a long title, and says when the part is gone", () => {
    const first = copiedPart({ ...from, title: "x".repeat(300) }, { ...about, part: "part-1" })!;
    expect(first.parts[0]!.name).toBe("First");
    expect(first.parts[0]!.id).toBe("part-1");
    expect(first.title).toHaveLength(300);
    expect(copiedPart(from, { ...about, part: "third" })).toBeNull();
  });
});
