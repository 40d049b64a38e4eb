import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { inflateSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { main } from "#cli";
import { validatePublished } from "#contract";
import { pngOf } from "../../src/cli/png.ts";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "picture-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let count = 0;
function file(content: unknown): string {
  const path = join(folder, `${count++}.json`);
  writeFileSync(path, JSON.stringify(content));
  return path;
}

const steel = {
  material: "steel-low-carbon",
  thickness_mm: 5,
  area_m2: 0.25,
  layers: [{ kind: "red-rust", thickness_um: 30 }],
};
const tinting = { level: 0.22, defocus_mm: 20, speed_mm_per_s: 3000, lineSpacing_mm: 0.15, passes: 4 };

async function run(name: string, part: object, laser: string, setting: object, ...more: string[]) {
  const out: string[] = [];
  const errors: string[] = [];
  const enquiry = file({ parts: [{ ...steel, ...part }] });
  const words = [name, "--enquiry", enquiry, "--laser", laser, "--setting", file(setting), ...more];
  const code = await main(
    ["node", "scourlight", ...words],
    (text) => out.push(text),
    (text) => errors.push(text),
  );
  return { code, out: out.join("\n"), errors };
}

/** Width, height and RGB rows of a PNG without filters. */
function read(png: Uint8Array) {
  const view = Buffer.from(png);
  expect([...view.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
  const chunks = new Map<string, Buffer>();
  for (let at = 8; at < view.length; ) {
    const length = view.readUInt32BE(at);
    chunks.set(view.toString("latin1", at + 4, at + 8), view.subarray(at + 8, at + 8 + length));
    at += 12 + length;
  }
  const header = chunks.get("IHDR")!;
  expect([...chunks.keys()]).toEqual(["IHDR", "IDAT", "IEND"]);
  return { width: header.readUInt32BE(0), height: header.readUInt32BE(4), rows: inflateSync(chunks.get("IDAT")!) };
}

describe("PNG", () => {
  it("keeps every pixel and carries the check sum of the standard", () => {
    const png = pngOf(2, 1, Uint8ClampedArray.of(1, 2, 3, 255, 250, 251, 252, 255));
    expect(read(png)).toMatchObject({ width: 2, height: 1 });
    expect([...read(png).rows]).toEqual([0, 1, 2, 3, 250, 251, 252]);
    // The last chunk is the same in every PNG: ISO/IEC 15948, IEND with its check sum ae 42 60 82.
    expect([...png.slice(-8)]).toEqual([0x49, 0x45, 0x4e, 0x44, 0xae, 0x42, 0x60, 0x82]);
  });
});

describe("picture", () => {
  it("writes the patch and says in words what it shows", async () => {
    const png = join(folder, "patch.png");
    const { code, out } = await run("picture", {}, "pulsed-100", {}, "--side", "1 mm", "--out", png);
    expect(code).toBe(0);
    for (const says of ["whole patch", "interior", "line starts", "line ends", "residue", "melted", "deepest melt"])
      expect(out).toContain(says);
    for (const says of ["oxide", "tint", "streaks", "Legend", "one version of the physics", "never a proof"])
      expect(out).toContain(says);
    expect(out).toContain("laser safety officer");
    expect(out).not.toMatch(/NaN|Infinity|undefined/);
    const { width, height, rows } = read(readFileSync(png));
    expect(out).toContain(`${width} × ${height} pixels`);
    expect(rows.length).toBe(height * (3 * width + 1));
  });

  it("shows steel that was too hot in the colours of its oxide, the same twice", async () => {
    const oil = { layers: [{ kind: "oil-film", thickness_um: 3 }], thickness_mm: 3 };
    const [first, second] = [join(folder, "a.png"), join(folder, "b.png")];
    const args = ["--json", "--side", "5", "--out"];
    const { out } = await run("picture", oil, "continuous-1500", tinting, ...args, first);
    await run("picture", oil, "continuous-1500", tinting, ...args, second);
    expect(readFileSync(first)).toEqual(readFileSync(second));
    const wire = validatePublished("picture", JSON.parse(out), "picture");
    expect(wire.interior?.meltedShare).toBe(0);
    expect(wire.interior?.oxideThickness_nm).toBeGreaterThan(50);
    expect(wire.interior?.discolouredShare).toBeGreaterThan(0.5);
    expect(wire.legend.some((l) => l.words.startsWith("straw: "))).toBe(true);
    expect(wire.legend.some((l) => l.words.startsWith("blue: "))).toBe(true);
    expect(wire.streaks?.fluenceAcross).toBeGreaterThan(0);
    expect(wire.cautions.length).toBeGreaterThan(3);
    expect(wire.caveats[0]).toContain("never a proof");
  });

  it("says in words what becomes of a layer that stays", async () => {
    const layers = [
      { kind: "alkyd", colour: "mid", thickness_um: 40 },
      { kind: "zinc-coating", thickness_um: 10, mustStay: true },
    ];
    const out = ["--side", "1", "--out", join(folder, "stay.png")];
    const gentle = await run("picture", { layers }, "pulsed-200", { level: 0.3 }, ...out);
    expect(gentle.out).toContain("the metal is under a layer that stays");
    expect(gentle.out).toMatch(/drawn whole; in this version of the physics 0 % of its area/);
    const harsh = await run("picture", { layers }, "pulsed-200", { passes: 8, lineSpacing_mm: 0.03 }, ...out);
    expect(harsh.out).toMatch(/drawn whole; in this version of the physics [1-9][\d.]* % of its area/);
  });

  it.each([
    ["a name that is no picture", ["--out", "patch.jpg"], /^invalid picture file: patch\.jpg \(its name must end/],
    ["turns of another kind", ["--turns", "loop"], /^invalid turns: loop \(one of: outside-off/],
    ["a patch in seconds", ["--side", "3 s"], /^invalid side of the patch: 3 s/],
    ["a patch of a metre", ["--side", "1 m"], /^invalid side of the patch: 1000 mm \(/],
    ["a patch of nothing", ["--side", "0"], /^invalid side of the patch: 0 mm \(/],
    ["half a seed", ["--seed", "1.5"], /^invalid seed: 1\.5 /],
  ])("refuses %s and writes nothing", async (_what, flags, line) => {
    const png = join(folder, "never.png");
    const { code, out, errors } = await run("picture", {}, "pulsed-100", {}, "--out", png, ...flags);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(errors).toHaveLength(1);
    expect(errors[0]).toMatch(line);
    expect(existsSync(png)).toBe(false);
  });
});

it("refuses to draw over a folder", async () => {
  const taken = join(folder, "taken.png");
  mkdirSync(taken);
  const { code, errors } = await run("picture", {}, "pulsed-100", {}, "--out", taken);
  expect({ code, errors }).toEqual({
    code: 2,
    errors: [`invalid picture file: ${taken} (is a folder, not a file)`],
  });
});

describe("predict over a band", () => {
  const draws = ["--draws", "8"];

  it("prints best and worst over the band asked for", async () => {
    const flags = ["--defocus-band", "3", "--angle", "30 deg"];
    const { code, out } = await run("predict", {}, "pulsed-100", { defocus_mm: 5 }, ...draws, ...flags);
    expect(code).toBe(0);
    expect(out).toContain("Band as asked: defocus 2 to 8 mm, up to 30 deg from the normal");
    expect(out).toMatch(/residue +best .* at defocus .*; worst .* at defocus 8 mm, 30 deg/);
    expect(out).toMatch(/undamaged in \d+ of 100/);
    expect(out).not.toMatch(/NaN|Infinity|undefined/);
  });

  it("prints the band of a curved face without being asked, and none of a flat one", async () => {
    const faces = [{ kind: "flat" }, { kind: "convex", radius_mm: 500 }, { kind: "concave", radius_mm: 5 }];
    const { out } = await run("predict", { faces }, "pulsed-100", { lens: "f254" }, ...draws);
    // The lens f254 has a field of 170 mm; on a radius of 500 mm 500 − √(500² − 85²) = 7.28 mm, asin(0.17) = 9.8°.
    expect(out).toContain("On the convex face of radius 500 mm, 170 mm wide: defocus 0 to 7.28 mm, up to 9.8 deg");
    // 60° on 5 mm: 2·5·sin 60° = 8.66 mm wide, 5·(1 − cos 60°) = 2.5 mm nearer.
    expect(out).toContain("8.66 mm wide, beyond which the head has to be turned: defocus −2.5 to 0 mm, up to 60 deg");
    expect(out).toContain("the head reaches into radii from");
    const flat = await run("predict", {}, "pulsed-100", {}, ...draws);
    expect(flat.out).not.toMatch(/face of radius|Band as asked/);
  });

  it.each([
    ["a band in seconds", ["--defocus-band", "3 s"], /^invalid defocus band: 3 s \(needs/],
    ["a band below nothing", ["--defocus-band=-3"], /^invalid defocus band: -3 mm \(0 to 100 mm\)/],
    ["light along the face", ["--angle", "90 deg"], /^invalid angle: 90 deg \(0 to 75 deg\)/],
    ["an angle in words", ["--angle", "steep"], /^invalid angle: steep \(must be a number/],
    ["two of three strengths", ["--yield-strength", "250"], /^invalid strength of the metal: in part \(/],
    ["a band that JSON cannot hold", ["--angle", "10", "--json"], /^invalid output: --json \(/],
  ])("refuses %s", async (_what, flags, line) => {
    const { code, out, errors } = await run("predict", {}, "pulsed-100", {}, ...draws, ...flags);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(errors).toHaveLength(1);
    expect(errors[0]).toMatch(line);
  });
});

describe("bow", () => {
  const strength = ["--yield-strength", "250", "--youngs-modulus", "210", "--poisson-ratio", "0.3"];
  const thick = { thickness_mm: 20 };
  const line = (out: string) => out.split("\n").find((l) => l.startsWith("bow"));

  it("is observed only without the strength of the metal, and for pulses", async () => {
    const without = await run("predict", thick, "continuous-1500", {}, "--draws", "8");
    expect(line(without.out)).toMatch(/not in the library: observed only, never predicted$/);
    const pulsed = await run("predict", thick, "pulsed-100", {}, "--draws", "8", ...strength);
    expect(line(pulsed.out)).toMatch(/pulse.*: observed only, never predicted$/);
  });

  it("is an estimate with its range where a formula holds", async () => {
    const { out } = await run("predict", thick, "continuous-1500", tinting, "--draws", "8", ...strength);
    expect(line(out)).toMatch(/curvature about [\d.×⁻¹⁰-⁹]+ 1\/m \(.* to .*1\/m; a prior/);
  });
});
