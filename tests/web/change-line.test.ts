import { describe, expect, it } from "vitest";
import type { Outcome } from "#terms";
import { type Change, noChanges, withRedone, withSaved, withUndone } from "../../src/web/steps/results/change-line.ts";

const change = (note: string): Change => ({ before: { note: "" } as Outcome, after: { note } as Outcome });
const [one, two, three] = [change("one"), change("two"), change("three")];

describe("rows that were recorded", () => {
  it("are taken back and recorded anew in order", () => {
    const both = withSaved(withSaved(noChanges, one), two);
    const back = withUndone(withUndone(both, two), one);
    expect(back).toEqual({ past: [], future: [one, two] });
    expect(withRedone(back, one)).toEqual({ past: [one], future: [two] });
  });

  it("stay in the line when they were saved while another was taken back", () => {
    const meanwhile = withSaved(withSaved(withSaved(noChanges, one), two), three);
    expect(withUndone(meanwhile, two)).toEqual({ past: [one, three], future: [] });
  });
});
