import { describe, expect, it } from "vitest";
import type { EnquiryLine } from "../../src/web/api/enquiries.ts";
import { stateOf } from "../../src/web/enquiries/enquiry-state.ts";
import { foundLines } from "../../src/web/enquiries/found-lines.ts";
import { freshId } from "../../src/web/enquiries/fresh-id.ts";

const line = (id: string, change: Partial<EnquiryLine> = {}): EnquiryLine => ({
  id,
  version: 1,
  savedAt: "2026-01-01T00:00:00Z",
  enquiry: {
    title: `Title of ${id}`,
    customer: "Yard",
    parts: [{ name: "Hatch", material: "aluminium-5083", layers: [{ kind: "epoxy-primer", colour: "white" }] }],
  },
  trials: 0,
  outcomes: 0,
  answers: 0,
  lasers: [],
  names: [],
  ...change,
});

describe("the search of the list", () => {
  const lines = [
    line("a", { lasers: ["pulsed-500"], names: ["Nanosecond pulsed 500 W", "Aluminium 5083"] }),
    line("b", { lasers: ["continuous-1500"], names: ["Continuous 1500 W", "Mild steel"] }),
  ];
  const ids = (search: string) => foundLines(lines, search).map((l) => l.id);

  it("finds by title, metal, layer and laser, every word in any order", () => {
    expect(ids("")).toEqual(["a", "b"]);
    expect(ids("TITLE of b")).toEqual(["b"]);
    expect(ids("5083 epoxy")).toEqual(["a", "b"]);
    expect(ids("nanosecond")).toEqual(["a"]);
    expect(ids("1500 white")).toEqual(["b"]);
    expect(ids("mild")).toEqual(["b"]);
    expect(ids("nanosecond mild")).toEqual([]);
  });

  it("says how far each has come by what is kept of it", () => {
    expect(stateOf({ trials: 0, outcomes: 0, answers: 0 })).toBe("described");
    expect(stateOf({ trials: 1, outcomes: 0, answers: 0 })).toBe("tried");
    expect(stateOf({ trials: 1, outcomes: 3, answers: 0 })).toBe("proven");
    expect(stateOf({ trials: 1, outcomes: 3, answers: 1 })).toBe("answered");
  });

  it("gives a new enquiry the first name that is free", () => {
    const day = new Date("2026-02-03T10:00:00Z");
    expect(freshId([], day)).toBe("enquiry-2026-02-03-1");
    expect(freshId(["enquiry-2026-02-03-1", "enquiry-2026-02-03-3"], day)).toBe("enquiry-2026-02-03-2");
  });
});
