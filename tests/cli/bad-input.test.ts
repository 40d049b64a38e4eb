import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { main } from "#cli";
import { ownFiles } from "../../src/library/own-files.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "bad-input-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let count = 0;
function file(content: unknown): string {
  const path = join(folder, `${count++}.json`);
  writeFileSync(path, JSON.stringify(content));
  return path;
}

const part = {
  material: "steel-low-carbon",
  thickness_mm: 5,
  area_m2: 1,
  layers: [{ kind: "alkyd", colour: "mid", thickness_um: 40 }],
};

async function predict(change: object, setting: object = {}, ...more: string[]) {
  const out: string[] = [];
  const errors: string[] = [];
  const enquiry = file({ parts: [{ ...part, ...change }] });
  const words = ["predict", "--enquiry", enquiry, "--laser", "pulsed-500", "--setting", file(setting), "--draws", "8"];
  const code = await main(
    ["node", "scourlight", ...words, ...more],
    (text) => out.push(text),
    (text) => errors.push(text),
  );
  return { code, out: out.join("\n"), errors };
}

describe("what is answered with a caveat that says what the answer can bear", () => {
  const layer = (thickness_um: number) => ({ layers: [{ ...part.layers[0], thickness_um }] });
  const cases: [string, object, object, string][] = [
    ["a layer of 15 mm", layer(15_000), {}, "15 mm of layer is far beyond what a laser is used for"],
    ["a layer of 10 nm", layer(0.01), {}, "thinner than the wavelength"],
    ["a part smaller than the spot", { area_m2: 1e-9 }, {}, "is larger than the part (0.032 mm square)"],
    ["a part smaller than a patch", { area_m2: 1e-5 }, {}, "it gets hotter than said"],
    ["lines farther apart than the part", { area_m2: 1e-6 }, { lineSpacing_mm: 2 }, "one line crosses it"],
    ["lines that leave gaps", {}, { lineSpacing_mm: 2 }, "Lines do not touch: stripes of layer stay."],
    [
      "pulses that leave gaps",
      {},
      { frequency_kHz: 5, speed_mm_per_s: 9000 },
      "Pulses do not touch along the line: stripes of layer stay.",
    ],
    ["a foil", { thickness_mm: 0.001 }, {}, "The plate is heated through during one event"],
  ];
  it.each(cases)("%s", async (_what, change, setting, says) => {
    const { code, out } = await predict(change, setting);
    expect(code).toBe(0);
    expect(out).toContain(says);
    expect(out).not.toMatch(/NaN|Infinity|undefined/);
  });

  it("says none of it of a plain part", async () => {
    const { out } = await predict({});
    for (const [, , , says] of cases) expect(out).not.toContain(says);
  });
});

describe("what is refused in one sentence", () => {
  const metalFile = (change: (metal: Record<string, never>) => void) => {
    const own = ownFiles.find((f) => (f.metals?.length ?? 0) > 0)!;
    const metal = { ...structuredClone(own.metals![0]), id: "mine" };
    change(metal as unknown as Record<string, never>);
    return file({ source: own.source, fromMemory: own.fromMemory, note: "test", metals: [metal] });
  };
  it.each([
    [
      "a table that falls",
      () => metalFile((m: { conductivity?: { temperature: number[] } }) => m.conductivity!.temperature.reverse()),
      /^invalid metals\[0\]\.conductivity\.temperature: .*\(must rise/,
    ],
    [
      "a metal that boils before it melts",
      () => metalFile((m: Record<string, unknown>) => (m.boilingTemperature = m.meltingTemperature)),
      /^invalid metals\[0\]\.boilingTemperature\.low: .*\(must be above the highest melting temperature/,
    ],
  ])("%s", async (_what, library, line) => {
    const { code, out, errors } = await predict({ material: "mine" }, {}, "--library", library());
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(errors).toHaveLength(1);
    expect(errors[0]).toMatch(line);
  });

  it("a layer of nothing and a layer of a metre", async () => {
    for (const thickness_um of [0, "1 m"]) {
      const { code, errors } = await predict({ layers: [{ kind: "alkyd", thickness_um }] });
      expect(code).toBe(2);
      expect(errors[0]).toMatch(/^invalid parts\[0\]\.layers\[0\]\.thickness_um: /);
    }
  });
});
