import { describe, expect, it } from "vitest";
import { parseEnquiry } from "#contract";
import { linesOf } from "./lines.ts";
import { shelves } from "./shelves.ts";

const withLayer = (thickness_um: unknown, thickness_mm: unknown = 5) => ({
  parts: [{ material: "aluminium-5083", thickness_mm, area_m2: 1, layers: [{ kind: "alkyd", thickness_um }] }],
});

describe("layers and metals that cannot be", () => {
  it.each([
    [0, "invalid parts[0].layers[0].thickness_um: 0 um (must be greater than 0)"],
    [-40, "invalid parts[0].layers[0].thickness_um: -40 um (must be greater than 0)"],
    ["1 m", "invalid parts[0].layers[0].thickness_um: 1 m (must be at most 20000 um)"],
    ["0.1 nm", "invalid parts[0].layers[0].thickness_um: 0.1 nm (must be at least 0.001 um)"],
    [1e6, "invalid parts[0].layers[0].thickness_um: 1000000 um (must be at most 20000 um)"],
  ])("refuses a layer of %s", (thickness, line) => {
    expect(linesOf(() => parseEnquiry(withLayer(thickness), shelves))).toEqual([line]);
  });

  it("refuses a plate thinner than any foil", () => {
    expect(linesOf(() => parseEnquiry(withLayer(40, "10 nm"), shelves))).toEqual([
      "invalid parts[0].thickness_mm: 10 nm (must be at least 0.001 mm)",
    ]);
  });
});
