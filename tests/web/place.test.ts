import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { linkTo, parseHash, stepIds } from "../../src/web/app/place.ts";

describe("deep links", () => {
  it("come back as the place they were made from", () => {
    const id = fc.string({ minLength: 1, maxLength: 30, unit: "grapheme" });
    fc.assert(
      fc.property(id, fc.constantFrom(...stepIds), id, (enquiryId, step, part) => {
        const place = parseHash(linkTo({ enquiryId, step, query: { part } }));
        expect(place).toMatchObject({ page: "enquiry", enquiryId, step, partId: part });
      }),
    );
  });

  it("name a shelf of the library, a search of the archive and a trial at the machine", () => {
    const entry = fc.string({ minLength: 1, maxLength: 30, unit: "grapheme" });
    fc.assert(
      fc.property(fc.constantFrom("library", "archive", "bench"), entry, (page, id) => {
        const place = parseHash(linkTo({ page, path: [id], query: { like: id } }));
        expect(place).toMatchObject({ page, path: [id], query: { like: id }, enquiryId: null });
      }),
    );
    expect(parseHash("#/bench")).toMatchObject({ page: "enquiries", path: [] });
  });

  it("that mean nothing open the list or the first step, and never throw", () => {
    expect(parseHash("#/enquiry/a/nowhere")).toMatchObject({ page: "enquiry", step: "part", partId: null });
    expect(parseHash("")).toMatchObject({ page: "enquiries", enquiryId: null });
    expect(parseHash("#/enquiry/%E0%A4%A")).toMatchObject({ page: "enquiry", enquiryId: "%E0%A4%A" });
    fc.assert(fc.property(fc.string(), (hash) => void parseHash(`#${hash}`)));
  });
});
