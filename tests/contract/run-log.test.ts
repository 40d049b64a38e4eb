import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseRunEntry, runEntryFromWire, runEntryToWire, validatePublished } from "#contract";
import type { RunEntry } from "#terms";

const id = (n: number): string => `00000000-0000-4000-8000-${n.toString(16).padStart(12, "0")}`;
const burned = { id: id(1), kind: "burned", patch: 3, at: "2026-11-25T10:00:00.000Z" };

describe("an entry made at the machine", () => {
  it("fills in what a phone left out", () => {
    expect(parseRunEntry(burned)).toEqual({
      ...burned,
      coupon: null,
      by: "",
      note: "",
      plateTemperature_degC: null,
      photo: null,
      of: null,
    });
  });

  it.each([
    [{ id: "1" }, "invalid id: 1 (must be a uuid)"],
    [{ id: id(1).toUpperCase().replace("4000", "4A00") }, "must be a uuid"],
    [{ patch: 0 }, "invalid patch: 0 (must be at least 1)"],
    [{ patch: null }, 'invalid patch: null (is needed of an entry "burned")'],
    [{ at: "2026-11-25T10:00:00Z" }, "must be an instant in UTC"],
    [{ at: "2026-11-25T24:00:00.000Z" }, "must be an instant in UTC"],
    [{ at: "2026-11-25T11:00:00.000+01:00" }, "must be an instant in UTC"],
    [{ kind: "melted" }, "must be one of: burned, skipped, repeated"],
    [{ kind: "skipped" }, 'invalid note: missing (is needed of an entry "skipped")'],
    [{ kind: "skipped", note: "  " }, "invalid note"],
    [{ kind: "note" }, "invalid note"],
    [{ kind: "photo", photo: "a".repeat(64) }, "invalid coupon"],
    [{ kind: "photo", coupon: 1, photo: "x" }, "invalid photo"],
    [{ kind: "temperature" }, "invalid plateTemperature_degC: missing"],
    [{ kind: "temperature", plateTemperature_degC: 1600 }, "invalid plateTemperature_degC: 1600 degC"],
    [{ kind: "temperature", plateTemperature_degC: Number.NaN }, "invalid plateTemperature_degC"],
    [{ kind: "undo-of", patch: null }, "invalid of: missing"],
    [{ of: id(2) }, 'invalid of: 00000000-0000-4000-8000-000000000002 (belongs to "undo-of" alone)'],
    [{ speed: 3 }, "unknown field"],
  ])("%j is refused in one sentence", (change, line) => {
    let said = "";
    try {
      parseRunEntry({ ...burned, ...change });
    } catch (error) {
      said = (error as Error).message;
    }
    expect(said).toContain(line);
    expect(said).toMatch(/^invalid [^\n]+$/);
  });

  it("keeps its temperature to and from the unit of the file", () => {
    fc.assert(
      fc.property(fc.double({ min: 214, max: 1773, noNaN: true }), (kelvin) => {
        const entry: RunEntry = { ...runEntryFromWire(parseRunEntry(burned)), plateTemperature: kelvin };
        const wire = runEntryToWire(entry);
        expect(wire.plateTemperature_degC).toBeCloseTo(kelvin - 273.15, 8);
        // sent twice it is the same to the last digit
        expect(runEntryToWire(runEntryFromWire(wire))).toEqual(wire);
        expect(runEntryFromWire(wire).plateTemperature).toBeCloseTo(kelvin, 8);
      }),
    );
  });
});

it("a log bears the name of its trial", () => {
  const log = { id: "t", enquiry: "e", trial: "t", entries: [burned] };
  expect(validatePublished("run-log", log, "run-log").entries).toHaveLength(1);
  expect(() => validatePublished("run-log", { ...log, id: "u" }, "run-log")).toThrow("must be t, as its trial");
});
