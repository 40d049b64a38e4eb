import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { createLibrary } from "#library";
import { InvalidInput } from "#units";
import { ownFiles } from "../../src/library/own-files.ts";

const fileWith = (group: "metals" | "layers" | "setups", change: (entry: Record<string, unknown>) => void) => {
  const own = ownFiles.find((f) => (f[group]?.length ?? 0) > 0)!;
  const entry = structuredClone(own[group]![0]) as unknown as Record<string, unknown>;
  entry.id = "mine";
  change(entry);
  return { source: own.source, fromMemory: own.fromMemory, note: "test", [group]: [entry] };
};
const metal = (change: (m: never) => void) => fileWith("metals", change as (e: Record<string, unknown>) => void);
type Table = { temperature: unknown[]; value: unknown[] };
type Figure = { value: number; low: number; high: number };
const refusal = (file: unknown): string => {
  try {
    createLibrary([file]);
  } catch (error) {
    if (error instanceof InvalidInput) return error.message;
    throw error;
  }
  return "taken";
};

describe("property tables and metals that cannot be", () => {
  it("takes a file that is sound", () => {
    expect(refusal(metal(() => {}))).toBe("taken");
  });

  const spoilt: [string, unknown, RegExp][] = [
    [
      "temperatures that fall",
      metal((m: { conductivity: Table }) => m.conductivity.temperature.reverse()),
      /^invalid metals\[0\]\.conductivity\.temperature: .*\(must rise from one to the next\)$/,
    ],
    [
      "one temperature twice",
      metal((m: { heatCapacity: Table }) => {
        m.heatCapacity.temperature[1] = m.heatCapacity.temperature[0];
      }),
      /^invalid metals\[0\]\.heatCapacity\.temperature: .*\(must rise/,
    ],
    [
      "a negative value",
      metal((m: { heatCapacity: Table }) => {
        m.heatCapacity.value[1] = -900;
      }),
      /^invalid metals\[0\]\.heatCapacity\.value\[1\]: -900 \(must be/,
    ],
    [
      "no number",
      metal((m: { conductivity: Table }) => {
        m.conductivity.value[0] = Number.NaN;
      }),
      /^invalid metals\[0\]\.conductivity\.value\[0\]: not a number \(must be/,
    ],
    [
      "a value short",
      metal((m: { conductivity: Table }) => m.conductivity.value.pop()),
      /^invalid metals\[0\]\.conductivity\.value: .*\(must hold as many numbers as temperature\)$/,
    ],
    [
      "a metal that boils before it melts",
      metal((m: { meltingTemperature: Figure; boilingTemperature: Figure }) => {
        m.boilingTemperature = { ...m.meltingTemperature };
      }),
      /^invalid metals\[0\]\.boilingTemperature\.low: \d+ \(must be above the highest melting temperature: metals that do not melt before they boil are out of scope\)$/,
    ],
    [
      "a metal that is liquid in the hand",
      metal((m: { meltingTemperature: Figure }) => {
        m.meltingTemperature = { ...m.meltingTemperature, value: 280, low: 280, high: 280 };
      }),
      /^invalid metals\[0\]\.meltingTemperature\.low: 280 \(must be 300 K or above/,
    ],
    [
      "a source whose pulses run into each other",
      fileWith("setups", (s) => {
        s.pulses = [{ width: 500e-9, energyMax: 1e-3, frequencyMax: 2e6 }];
      }),
      /^invalid setups\[0\]\.pulses: .*\(width times frequencyMax must be below 1: pulses would run into each other\)$/,
    ],
  ];
  it.each(spoilt)("refuses %s in one sentence", (_what, file, line) => {
    expect(refusal(file)).toMatch(line);
  });
});

describe("whatever comes in as a library file", () => {
  const awkward = fc.oneof(
    fc.double(),
    fc.constantFrom<unknown>(null, "", "1e999", -1, 0, 1e308, [], {}, true, "NaN", undefined),
    fc.jsonValue(),
  );
  /** Puts a value somewhere inside a copy of a sound file. */
  const spoil = (group: "metals" | "layers" | "setups", path: readonly number[], value: unknown) =>
    fileWith(group, (entry) => {
      let at: Record<string, unknown> = entry;
      for (const [depth, step] of path.entries()) {
        const keys = Object.keys(at).filter((k) => k !== "id");
        if (keys.length === 0) return;
        const key = keys[step % keys.length];
        const inner = at[key];
        if (depth === path.length - 1 || inner === null || typeof inner !== "object") {
          at[key] = value;
          return;
        }
        at = inner as Record<string, unknown>;
      }
    });

  it("is taken whole with finite numbers or refused as InvalidInput in one line", () => {
    const finite = (value: unknown): boolean =>
      typeof value === "number"
        ? Number.isFinite(value)
        : value === null || typeof value !== "object" || Object.values(value).every(finite);
    let refused = 0;
    fc.assert(
      fc.property(
        fc.constantFrom("metals" as const, "layers" as const, "setups" as const),
        fc.array(fc.nat(40), { minLength: 1, maxLength: 3 }),
        awkward,
        (group, path, value) => {
          const file = spoil(group, path, value);
          const line = refusal(file);
          if (line === "taken") {
            const { metals, layerKinds, setups } = createLibrary([file]);
            expect(finite([metals.at(-1), layerKinds.at(-1), setups.at(-1)])).toBe(true);
          } else {
            refused++;
            expect(line).toMatch(/^invalid [^\r\n]+: [^\r\n]* \([^\r\n]+\)$/);
          }
        },
      ),
      { numRuns: 400 },
    );
    expect(refused).toBeGreaterThan(200);
    fc.assert(
      fc.property(fc.anything(), (file) => void refusal(file)),
      { numRuns: 200 },
    );
  });
});
