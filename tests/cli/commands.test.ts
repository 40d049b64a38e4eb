import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { validatePublished } from "#contract";
import { main } from "#cli";

const root = new URL("../..", import.meta.url).pathname;
const enquiry = join(root, "examples/enquiry.json");
const setting = join(root, "examples/setting.json");
let folder = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "commands-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

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

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

describe("predict", () => {
  it("prints the published shape, the same twice, and cautions with it", async () => {
    const args = [
      "predict",
      "--enquiry",
      enquiry,
      "--laser",
      "pulsed-100",
      "--setting",
      setting,
      "--draws",
      "16",
      "--json",
    ];
    const first = await run(...args);
    expect(first.code).toBe(0);
    const wire = validatePublished("prediction", JSON.parse(first.out), "prediction");
    expect(wire.laser).toBe("pulsed-100");
    expect(wire.meanPower_W).toBeCloseTo(100, 6);
    expect(wire.cautions.length).toBeGreaterThan(3);
    expect((await run(...args)).out).toBe(first.out);
  });

  it("reads power, level and duty of a continuous beam as the trade does: 2 kW, 50 %, 20 % are 200 W", async () => {
    const path = file("modulated.json", '{"power_W": 2000, "level": 0.5, "duty": 0.2}');
    const { out } = await run(
      "predict",
      "--enquiry",
      enquiry,
      "--laser",
      "continuous-2000",
      "--setting",
      path,
      "--draws",
      "8",
      "--json",
    );
    expect(JSON.parse(out).meanPower_W).toBeCloseTo(200, 6);
    expect(JSON.parse(out).fluencePeak_J_per_cm2).toBeNull();
    expect(JSON.parse(out).dwell_s).toBeGreaterThan(0);
  });

  it("says nothing that is no number", async () => {
    const { out } = await run(
      "predict",
      "--enquiry",
      enquiry,
      "--part",
      "brackets",
      "--laser",
      "pulsed-500",
      "--setting",
      file("empty.json", "{}"),
      "--draws",
      "8",
    );
    expect(out).not.toMatch(/NaN|Infinity|undefined/);
    expect(out).toContain("laser safety officer");
  });
});

describe("refusals: one clear line, exit code 2, nothing written", () => {
  const cases: [string, () => string[], string][] = [
    ["no such file", () => ["compare", "--enquiry", join(folder, "none.json")], "there is no such file"],
    ["a folder", () => ["compare", "--enquiry", folder], "is a folder, not a file"],
    ["broken JSON", () => ["compare", "--enquiry", file("broken.json", '{"parts": [')], "invalid enquiry"],
    ["empty", () => ["compare", "--enquiry", file("nothing.json", " ")], "must hold JSON"],
    [
      "seconds for a thickness",
      () => [
        "compare",
        "--enquiry",
        file("unit.json", '{"parts":[{"layers":[{"kind":"alkyd","thickness_um":"35 s"}]}]}'),
      ],
      "invalid parts[0].layers[0].thickness_um: 35 s",
    ],
    [
      "a negative area",
      () => ["compare", "--enquiry", file("area.json", '{"parts":[{"area_m2":-1}]}')],
      "invalid parts[0].area_m2: -1 m2",
    ],
    [
      "an unknown metal",
      () => [
        "compare",
        "--enquiry",
        file("metal.json", '{"parts":[{"material":"unobtainium","layers":[{"kind":"alkyd"}]}]}'),
      ],
      "unobtainium",
    ],
    [
      "an unknown laser",
      () => ["predict", "--enquiry", enquiry, "--laser", "pulsed-9", "--setting", setting],
      "invalid laser: pulsed-9 (one of: pulsed-50",
    ],
    [
      "an unknown part",
      () => ["compare", "--enquiry", enquiry, "--part", "keel"],
      "invalid part: keel (one of: hatch-covers, brackets)",
    ],
    [
      "a setting beyond the machine",
      () => [
        "predict",
        "--enquiry",
        enquiry,
        "--laser",
        "pulsed-50",
        "--setting",
        file("far.json", '{"power_W": 900}'),
      ],
      "invalid",
    ],
    [
      "a setting word that nobody knows",
      () => ["predict", "--enquiry", enquiry, "--laser", "pulsed-50", "--setting", file("word.json", '{"wattage": 9}')],
      "wattage",
    ],
    ["a seed that is none", () => ["compare", "--enquiry", enquiry, "--seed", "x"], "invalid seed: x"],
    ["stone", () => ["compare", "--enquiry", file("stone.json", '{"parts":[{"material":"stone"}]}')], "declined"],
    [
      "a file too large to be meant",
      () => ["compare", "--enquiry", file("large.json", `"${"x".repeat(45_000_000)}"`)],
      "MB",
    ],
    ["an unknown command", () => ["ponder"], "invalid command line"],
  ];
  it.each(cases)("%s", async (_what, args, says) => {
    const { code, out, errors } = await run(...args());
    expect(code).toBe(2);
    expect(out).toBe("");
    expect(errors[0]).toMatch(/^invalid /);
    expect(errors.join("\n")).toContain(says);
    for (const line of errors) expect(line).not.toContain("\n");
  });
});

describe("a trial from plan to next patches", () => {
  const out = () => join(folder, "trial");
  const trialFile = () => join(out(), "hatch-covers-pulsed-500.trial.json");
  const planned = () => validatePublished("trial", JSON.parse(readFileSync(trialFile(), "utf8")), "trial");
  const quick = ["--draws", "8", "--rays", "0"];

  it("plans by what the physics says teaches most, the setting handed in first, and forecasts the patches", async () => {
    const sizes = ["--patches", "12", "--repeats", "2", "--draws", "8", "--rays", "4", "--rehearse", "2"];
    const asked = ["--enquiry", enquiry, "--laser", "pulsed-500", "--setting", file("mid.json", "{}"), ...sizes];
    const answer = await run("plan", ...asked, "--out", out(), "--json");
    expect(answer.code).toBe(0);
    const trial = validatePublished("trial", JSON.parse(answer.out), "trial");
    expect(trial).toEqual(planned());
    expect(trial.patches).toHaveLength(12);
    const middle = { frequency_kHz: 33.4, pulseWidth_ns: 100, speed_mm_per_s: 7126, defocus_mm: 0, lens: "f160" };
    expect(trial.patches.map((p) => p.setting)).toContainEqual(expect.objectContaining(middle));
    expect(trial.reasons.join(" ")).toContain("The settings that teach most by the physics");
    expect(trial.reasons.join(" ")).toContain("Rehearsed 2 times on truths drawn from the physics");
    expect(JSON.stringify(trial)).not.toContain("edges");
    const names = readdirSync(out());
    expect(names.some((n) => n.endsWith(".run-sheet.csv"))).toBe(true);
    expect(names.some((n) => n.endsWith("coupon-1.pdf"))).toBe(true);
    expect(readFileSync(join(out(), names.find((n) => n.endsWith("coupon-1.svg")) as string), "utf8")).toMatch(
      /width="[\d.]+mm"/,
    );
  });

  it("refuses a bad row by its line, keeps the rest, and names the next patches", async () => {
    const burned = planned()
      .patches.filter((p) => p.setting !== null)
      .map((p) => p.patch);
    const rows = burned.map((patch, i) => `${patch};${i % 2 === 0 ? "2,5" : "40"};${i % 3 === 0 ? 3 : 1}`);
    const csv = file("seen.csv", `\uFEFFpatch;residue_percent;metalCondition\r\n${rows.join("\r\n")}\r\n999;5;1\r\n`);
    const evidence = ["--trial", trialFile(), "--outcomes", csv];
    const recorded = await run("record", ...evidence, "--data", join(folder, "data"), "--json");
    expect(recorded.code).toBe(0);
    const record = JSON.parse(recorded.out);
    expect(record.accepted).toBe(burned.length);
    expect(record.refused).toHaveLength(1);
    expect(record.refused[0].line).toBe(burned.length + 2);

    const window = await run("window", "--enquiry", enquiry, ...evidence, ...quick, "--json");
    expect(window.code).toBe(0);
    const result = validatePublished("window", JSON.parse(window.out), "window");
    expect(result.diagnostics.patches).toBe(burned.length);
    expect(result.next.length).toBeGreaterThan(0);
    expect(result.cautions.length).toBeGreaterThan(0);
    const next = await run("next", "--enquiry", enquiry, ...evidence, ...quick);
    expect(next.out).toContain("Next patches\n  1");
    expect(next.out).toContain(`refused line ${burned.length + 2}: `);
    expect(next.out).not.toContain("What was learnt");
  });
});

describe("help", () => {
  it("names every verb with a line and the caution", async () => {
    const { code, out } = await run("--help");
    expect(code).toBe(0);
    for (const verb of ["predict", "plan", "record", "window", "next", "transfer", "compare", "report", "job", "serve"])
      expect(out).toContain(`  ${verb}`);
    expect(out).toContain("laser safety officer");
  });
});
