import { describe, expect, it } from "vitest";
import { parseEnquiry } from "#contract";
import { createLibrary, metal, setup } from "#library";
import type { Belief } from "#terms";
import { carried } from "#workflows";

const file = {
  source: "own-works",
  citation: "Certificate 4711",
  fromMemory: false,
  note: "own",
  metals: [{ ...metal("aluminium-5083"), id: "own-alloy", family: "own-family" }],
  setups: [
    { ...setup("pulsed-100"), id: "own-pulsed" },
    { ...setup("continuous-1000"), id: "own-continuous" },
  ],
};
const library = createLibrary([
  { ...file },
  { ...file, source: "own-second", metals: [{ ...file.metals[0], id: "own-second-alloy" }], setups: [] },
]);
const shelves = { metals: library.metals, setups: library.setups };
const layers = [{ kind: "polyurethane-topcoat", colour: "white", thickness_um: 60 }];
const part = parseEnquiry({ parts: [{ id: "p", material: "own-alloy", layers }] }, library).parts[0]!;
const belief: Belief = {
  id: "t1",
  trialId: "t1",
  enquiryId: "e",
  partId: "p",
  setupId: "own-pulsed",
  metalId: "own-second-alloy",
  layers: [{ kindId: "polyurethane-topcoat", colour: "white", thickness: 60e-6 }],
  lessons: [{ coordinate: "layer:polyurethane-topcoat:white:absorption", mean: 1, spread: 0.5 }],
  shifts: [{ coordinate: "clean-pulsed", mean: 1, spread: 0.5 }],
  patches: 36,
  modelVersion: "m",
};

describe("what earlier trials taught, on own metals and own lasers", () => {
  it("is carried within a family that only the own library knows", () => {
    expect(carried([belief], part, { shelves }).properties.size).toBe(1);
    expect(carried([belief], part).properties.size).toBe(0);
  });

  it("carries shifts to another own set-up of the same kind alone", () => {
    const on = (id: string) => carried([belief], part, { setup: library.setup(id), shelves }).shifts.size;
    expect(on("pulsed-100")).toBe(1);
    expect(on("own-continuous")).toBe(0);
    expect(carried([belief], part, { setup: library.setup("pulsed-100") }).shifts.size).toBe(0);
  });
});
