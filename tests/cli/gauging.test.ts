import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { main } from "#cli";
import { validatePublished } from "#contract";
import aiag from "../gauging/aiag.json";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "gauging-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let count = 0;
function file(lines: readonly string[]): string {
  const path = join(folder, `${count++}.csv`);
  writeFileSync(path, `${lines.join("\r\n")}\r\n`);
  return path;
}

async function run(...args: string[]) {
  const out: string[] = [];
  const errors: string[] = [];
  const code = await main(
    ["node", "scourlight", ...args],
    (text) => out.push(text),
    (text) => errors.push(text),
  );
  return { code, out: out.join("\n"), errors };
}

/** w = 26 µm, E_th = 30 µJ: D in µm at so many thresholds, 0 below one. */
const diameter = (thresholds: number, radius = 26): number =>
  thresholds <= 1 ? 0 : 2 * radius * Math.sqrt(Math.log(thresholds) / 2);
const factors = [0.8, 1.2, 1.5, 2, 2.8, 4, 5.5, 8, 11];

describe("beam-check", () => {
  const marks = (change: (line: string, i: number) => string = (line) => line) => [
    "site,energy_uJ,diameter_um,note",
    ...factors.map((f, i) => change(`${i + 1},${30 * f},${diameter(f).toFixed(2)},`, i)),
  ];

  it("says spot and threshold with errors, compares with the library, and cautions", async () => {
    const { code, out } = await run("beam-check", "--marks", file(marks()), "--laser", "pulsed-100", "--lens", "f160");
    expect(code).toBe(0);
    expect(out).toContain("8 marks, 1 without a mark");
    expect(out).toMatch(/spot diameter, 1\/e² +52 µm \(95 %: 51.7 to 52.3 µm/);
    expect(out).toMatch(/threshold energy +0\.03 mJ/);
    // 2·30e-6/(π·26e-6²) = 2.826 J/cm²
    expect(out).toMatch(/threshold fluence, middle +2\.83 J\/cm²/);
    expect(out).toContain('"replaces": true, put "spotDiameter": 0.000052');
    expect(out).toContain("laser safety officer");
    expect(out).not.toMatch(/\bsafe\b/);
  });

  it("prints the published shape, units of the header minded", async () => {
    const inMillimetres = [
      "energy_mJ;diameter_mm;diameterUncertainty_um",
      ...factors.map((f) => `${0.03 * f};${diameter(f) / 1000};1`.replaceAll(".", ",")),
    ];
    const { out } = await run("beam-check", "--marks", file(inMillimetres), "--json");
    const wire = validatePublished("beam-check", JSON.parse(out), "beam check");
    // the square of the stated 1 µm is taken off each D²
    expect(wire.groups[0]!.spotDiameter_um.value).toBeCloseTo(52, 1);
    expect(wire.groups[0]!.thresholdEnergy_mJ.value).toBeCloseTo(0.03, 3);
    expect(wire.groups[0]!.diameterScatter_um).toBeNull();
    expect(wire.library).toBeNull();
    expect(wire.cautions.length).toBeGreaterThan(1);
  });

  it("fits incubation and a focus series of ellipses", async () => {
    const pulses = [1, 10, 100].flatMap((n) =>
      factors.map(
        (f) => `${30 * f * n ** -0.1},${(diameter(f) + (f > 1 ? 0.2 * Math.sin(99 * f + n) : 0)).toFixed(3)},${n}`,
      ),
    );
    const incubation = await run("beam-check", "--json", "--marks", file(["energy_uJ,diameter_um,pulses", ...pulses]));
    expect(JSON.parse(incubation.out).incubation.exponent.value).toBeCloseTo(0.9, 2);
    const angle = (1.5 * 1.064) / (Math.PI * 26);
    const places = [-4, -2, -1, 0, 1, 2, 4].flatMap((mm) => {
      const radius = Math.hypot(26, angle * (mm - 0.3) * 1000);
      return factors.map((f) => {
        const d = diameter(f, radius) * (1 + 0.003 * Math.sin(77 * f + mm));
        return `${30 * f * (radius / 26) ** 2},${(1.1 * d).toFixed(3)},${(d / 1.1).toFixed(3)},${mm}`;
      });
    });
    const series = ["energy_uJ,diameterX_um,diameterY_um,defocus_mm", ...places];
    const focus = await run("beam-check", "--marks", file(series), "--laser", "pulsed-100", "--lens", "f160");
    expect(focus.out).toMatch(/x over y +1\.21/);
    expect(focus.out).toMatch(/place of the waist +0\.\d+ mm/);
    expect(focus.out).toMatch(/M² +1\.[45]/);
    expect(focus.out).toContain('"rayleighLength"');
  });

  it.each([
    [["energy,diameter_um", "1,2"], "invalid column: energy (must end in its unit, for example energy_mJ)"],
    [["energy_um,diameter_um", "1,2"], "invalid column: energy_um (must end in its unit, for example energy_mJ)"],
    [["energy_mJ", "1"], "invalid marks file: energy_mJ (the header line needs the column diameterX_um)"],
    [["energy_mJ,diameter_um,colour", "1,2,red"], "invalid column: colour (unknown)"],
    [["energy_mJ,diameter_um,pulse", "1,2,3"], "invalid column: pulse (unknown)"],
    [["energy_mJ,diameter_um", "1,many"], "invalid diameter_um on line 2: many (must be a number)"],
    [["energy_mJ,diameter_um", "1,-2"], "invalid diameter_um on line 2: -2 um (must be 0 (no mark) or above)"],
    [["energy_mJ,diameter_um", "0,2"], "invalid energy_mJ on line 2: 0 mJ (must be above 0)"],
    [["energy_mJ,diameter_um,pulses", "1,2,1.5"], "invalid pulses on line 2: 1.5 (must be a whole number, 1 or more)"],
    [["energy_mJ,diameter_um", "1,20", "2,30"], "invalid burn marks: 2 (at least 3 for each spot)"],
    [["energy_mJ,diameter_um", "1,30", "2,20", "3,10"], "their diameters must grow with the pulse energy"],
    [["energy_mJ,diameter_um"], "invalid marks file: header only (must have at least one row)"],
    [["energy_mJ,energy_J,diameter_um", "1,1,1"], "invalid column: energy_J (energy_mJ is there already"],
  ])("refuses %s", async (lines, says) => {
    const { code, errors, out } = await run("beam-check", "--marks", file(lines));
    expect(code).toBe(2);
    expect(errors[0]).toContain(says);
    expect(errors.length).toBe(1);
    expect(out).toBe("");
  });

  it("refuses a lens without a set-up, and names those there are", async () => {
    const alone = await run("beam-check", "--marks", file(marks()), "--lens", "f160");
    expect(alone.errors[0]).toContain("name the laser set-up beside it");
    const unknown = await run("beam-check", "--marks", file(marks()), "--laser", "pulsed-100", "--lens", "f1");
    expect(unknown.errors[0]).toContain("pulsed-100 has f100, f160, f254");
  });
});

describe("gauge-study", () => {
  const rows = (["A", "B", "C"] as const).flatMap((grader) =>
    aiag[grader].flatMap((values) => values.map((value, part) => `${part + 1},${grader},${value}`)),
  );

  it("says what the gauge takes of the spread and what that means for a trial", async () => {
    const { code, out } = await run("gauge-study", "--readings", file(["part,grader,reading_um", ...rows]));
    expect(code).toBe(0);
    expect(out).toContain("The gauge makes 27.9 % of the spread seen (26.7 % by ranges)");
    expect(out).toContain("It can tell 4 classes of these parts apart");
    expect(out).toContain("One reading by one of these graders is off by up to 0.593 µm");
    expect(out).toContain("it is counted with the repeats");
  });

  it("prints the published shape, variances in the square of the unit", async () => {
    const { out } = await run("gauge-study", "--json", "--readings", file(["part,grader,reading_um", ...rows]));
    const wire = validatePublished("gauge-study", JSON.parse(out), "gauge study");
    expect(wire.pooled.gauge_percent).toBeCloseTo(27.8606508811, 8);
    expect(wire.ranges.gauge_percent).toBeCloseTo(26.678049841, 8);
    // printed with the data in the manual: parts 88.3619, repeats 2.7589
    expect(wire.rows[0]!.sumOfSquares).toBeCloseTo(88.3619, 3);
    expect(wire.rows[3]!.sumOfSquares).toBeCloseTo(2.7589, 4);
  });

  it("refuses a study with a gap, by part and grader", async () => {
    const { code, errors } = await run(
      "gauge-study",
      "--readings",
      file(["part,grader,reading", ...rows.slice(0, -1)]),
    );
    expect(code).toBe(2);
    expect(errors).toEqual(["invalid readings: 2 (part 10 by C needs 3, as many as the others)"]);
    const blank = await run("gauge-study", "--readings", file(["part,grader,reading", "1,A,"]));
    expect(blank.errors[0]).toBe("invalid reading on line 2: missing (a crossed study has no gaps)");
    const heat = await run("gauge-study", "--readings", file(["part,grader,reading_degC", "1,A,5"]));
    expect(heat.errors[0]).toContain("give temperatures in K");
  });
});

describe("agreement", () => {
  const table = [
    [0, 4, 1],
    [0, 8, 0],
    [0, 1, 5],
  ];
  const pairs = table.flatMap((row, a) => row.flatMap((n, b) => Array.from({ length: n }, () => [a, b] as const)));
  const rows = pairs.flatMap(([a, b], i) => [`${i + 1},ada,${a}`, `${i + 1},ben,${b}`]);

  it("says kappa, near misses, wrong grades and what that means", async () => {
    const { code, out } = await run("agreement", "--grades", file(["patch,grader,grade", ...rows]));
    expect(code).toBe(0);
    expect(out).toContain("ada and ben: 19 patches, alike on 68 %");
    expect(out).toContain("kappa 0.48 ± 0.14 (standard error): middling agreement");
    expect(out).toContain("0.47 ± 0.15 (linear)");
    expect(out).toContain("More than one grade in twenty is wrong");
  });

  it("takes run sheets, prints the published shape, passes over rows without a grade", async () => {
    const sheet = [
      "patch,coupon,grader,metalCondition,note",
      ...rows.map((r) => r.replace(",", ",1,").concat(",")),
      "99,1,ada,,",
    ];
    const { out } = await run("agreement", "--json", "--grades", file(sheet));
    const wire = validatePublished("agreement", JSON.parse(out), "agreement");
    expect(wire.pairs[0]!.kappa.kappa).toBeCloseTo(0.484162895928, 11);
    expect(wire.pairs[0]!.items).toBe(19);
  });

  it("weighs words in the order given, and refuses one that is not in it", async () => {
    const words = rows.map((row) => row.replace(/\d$/, (d) => ["clean", "thin", "left"][Number(d)]!));
    const grades = file(["patch,grader,grade", ...words]);
    expect((await run("agreement", "--grades", grades)).out).toContain("in no order: name it with --order");
    const ordered = await run("agreement", "--grades", grades, "--order", "clean", "thin", "left");
    expect(ordered.out).toContain("0.47 ± 0.15 (linear)");
    const refused = await run("agreement", "--grades", grades, "--order", "clean", "left");
    expect(refused.code).toBe(2);
    expect(refused.errors[0]).toBe("invalid grade: thin (must be one of clean, left)");
  });
});

describe("threshold", () => {
  // 25 runs of a published go/no-go test: middle 600.383, spread 7.895
  const level = [
    600, 650, 625, 612, 606, 590, 593, 611, 617, 599, 590, 616, 593, 584, 585, 615, 587, 613, 612, 589, 611, 590, 610,
    591, 609,
  ];
  const failed = [0, 1, 1, 1, 1, 0, 0, 0, 1, 1, 0, 1, 1, 0, 0, 1, 0, 1, 1, 0, 1, 0, 1, 0, 1];
  const rows = level.map((x, i) => `${x},${failed[i] === 1 ? "yes" : "no"}`);

  it("prints the published shape with likelihood-ratio intervals, in the unit of the file", async () => {
    const sites = file(["level_mJ_per_cm2,damaged", ...rows]);
    const { code, out } = await run("threshold", "--sites", sites, "--scale", "linear", "--json");
    expect(code).toBe(0);
    const wire = validatePublished("threshold", JSON.parse(out), "threshold");
    expect(wire.middle!.value).toBeCloseTo(600.383161147, 5);
    expect(wire.middle!.low).toBeCloseTo(594.169943674, 3);
    expect(wire.spread!.high).toBeCloseTo(16.3297965096, 3);
    expect(wire.unit).toBe("mJ/cm2");
  });

  it("says what the sites bear: 1 % level by several curves, the bound from the lowest level, no level free of damage", async () => {
    const { out } = await run("threshold", "--sites", file(["level_mJ_per_cm2,damaged", ...rows]));
    expect(out).toContain("25 sites, 14 damaged");
    expect(out).toMatch(/1 % damaged at +58\d mJ\/cm²/);
    expect(out).toContain("by other curves through the same middle and slope");
    expect(out).toContain("0 of 1 damaged, which bounds the share only by 95 %");
    expect(out).toContain("takes 299 sites");
    expect(out).toContain("a straight line drawn to 0 % passes through levels that damage");
  });

  it("0 of 10 at the lowest level bounds it by 26 %; a clean split is said", async () => {
    const split = [...Array.from({ length: 10 }, () => "1,0"), "2,0", "3,1", "4,1"];
    const { out } = await run("threshold", "--sites", file(["level,damaged", ...split]));
    expect(out).toContain("Lowest level, 1: 0 of 10 damaged, which bounds the share only by 26 %");
    expect(out).toContain("somewhere between 2 and 3, and how steeply is unknown");
    expect(out).toContain("Firth's");
  });

  it.each([
    [["level,damaged", "1,maybe"], "invalid damaged on line 2: maybe (must be yes, no, 1 or 0)"],
    [["level,damaged", "0,no", "1,no", "2,yes", "3,yes"], "take --scale linear"],
    [["level_parsec,damaged", "1,no"], "invalid column: level_parsec (must be level or end in a known unit, level_um)"],
    [["level,damaged", "1,no", "2,no", "3,no", "4,no"], "invalid sites: none damaged"],
    [["damaged", "yes"], "the header line needs the column level or level_<unit>"],
  ])("refuses %s", async (lines, says) => {
    const { code, errors } = await run("threshold", "--sites", file(lines));
    expect(code).toBe(2);
    expect(errors[0]).toContain(says);
  });
});
