import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { adhesionPrior, scaleUnderLead } from "../../tools/validation-metal.ts";
import { acrylicBound } from "../../tools/validation-pulsed.ts";
import { publishedRows } from "../../tools/validation-rows.ts";
import { rowSection, verdict } from "../../tools/validation-text.ts";

const page = readFileSync(new URL("../../docs/validation.md", import.meta.url), "utf8");

describe("docs/validation.md", () => {
  // When this fails the physics has moved: run `npm run validation`, read what changed, commit the page.
  it("says what the product predicts now", () => {
    for (const answer of [adhesionPrior(), scaleUnderLead(), acrylicBound()])
      expect(page, answer.id).toContain(rowSection(answer));
  });

  it("holds every published row", () => {
    expect(publishedRows.map((r) => r.id)).toEqual(Array.from({ length: 12 }, (_, i) => `E${i + 1}`));
    for (const row of publishedRows) expect(page).toContain(`${row.target}: ${row.finding}`);
  });

  it("never counts a row that was in sight of priors or cannot be asked", () => {
    const band = { low: 1, median: 1, high: 1 };
    const met = [{ what: "", unit: "1", band, published: "", met: true }];
    const standings = new Map(publishedRows.map((r) => [r.id, verdict(r, met)]));
    for (const id of ["E1", "E2", "E4", "E5", "E6", "E7", "E11"])
      expect(standings.get(id)).toBe("used for priors, not counted");
    expect(standings.get("E3")).toBe("not testable, not counted");
    expect([...standings.values()].filter((v) => v === "hit")).toHaveLength(4);
    expect(verdict(publishedRows[11], [...met, { ...met[0], met: false }])).toBe("miss (1 of 2 met)");
  });
});
