import { describe, expect, it } from "vitest";
import { idField } from "../../src/contract/fields.ts";
import { freshTrialId } from "../../src/web/steps/trial/trial-id.ts";

const about = { enquiryId: "enquiry-2026-11-29-1", partId: "part-1", setupId: "pulsed-100" };

describe("the name of a trial", () => {
  it("is another for the first part of another enquiry, and for the next trial of the same", () => {
    const one = freshTrialId(about, []);
    expect(one).toBe("enquiry-2026-11-29-1-part-1-pulsed-100");
    expect(freshTrialId({ ...about, enquiryId: "enquiry-2026-11-29-2" }, [])).not.toBe(one);
    expect(freshTrialId(about, [one])).toBe(`${one}-2`);
    expect(freshTrialId(about, [one, `${one}-2`])).toBe(`${one}-3`);
  });

  it("is one that is taken, however long the names are that it is made from", () => {
    const long = { enquiryId: "e".repeat(80), partId: "p".repeat(80), setupId: "s".repeat(60) };
    const short = { ...long, enquiryId: "e" };
    for (const names of [long, short, { ...long, partId: "p" }]) {
      const base = freshTrialId(names, []);
      expect(idField.safeParse(base).success, base).toBe(true);
      const taken = Array.from({ length: 30 }, (_, i) => (i === 0 ? base : `${base}-${i + 1}`));
      expect(idField.safeParse(freshTrialId(names, taken)).success).toBe(true);
    }
  });
});
