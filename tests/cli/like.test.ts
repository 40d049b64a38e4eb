import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { main } from "#cli";
import { beliefToWire, parseEnquiryFile, parseTrialWire, trialFromWire, validatePublished } from "#contract";
import { openStore } from "#store";
import type { Belief } from "#terms";

const examples = new URL("../../examples/", import.meta.url).pathname;
const example = (name: string) => join(examples, name);
const enquiry = example("enquiry.json");
const setting = example("setting.json");
let folder = "";
let data = "";

const belief: Belief = {
  id: "hatch-covers-pulsed",
  trialId: "hatch-covers-pulsed",
  enquiryId: "island-ferry-yard",
  partId: "hatch-covers",
  setupId: "pulsed-500",
  metalId: "aluminium-5083",
  layers: [
    { kindId: "polyurethane-topcoat", colour: "mid", thickness: 45e-6 },
    { kindId: "epoxy-primer", colour: "mid", thickness: 30e-6 },
  ],
  lessons: [{ coordinate: "metal:aluminium-5083:absorptance", mean: 2, spread: 0.3 }],
  shifts: [],
  recommended: {
    setting: trialFromWire(parseTrialWire(JSON.parse(readFileSync(example("hatch-covers.pulsed.trial.json"), "utf8"))))
      .patches.map((p) => p.setting)
      .find((s) => s !== null)!,
    proven: true,
  },
  patches: 44,
  modelVersion: "m",
};

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

async function keep(beliefs: readonly Belief[]): Promise<void> {
  const store = openStore(join(data, "scourlight.db"));
  await store.write(async (tx) => {
    for (const b of beliefs) await tx.put("belief", beliefToWire(b));
  });
  await store.close();
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "like-"));
  data = join(folder, "data");
  for (const name of ["hatch-covers.pulsed", "hatch-covers.continuous", "brackets.pulsed"]) {
    const files = ["--trial", example(`${name}.trial.json`), "--outcomes", example(`${name}.outcomes.csv`)];
    const { errors } = await run("record", ...files, "--enquiry", enquiry, "--data", data);
    expect(errors).toEqual([]);
  }
  const elsewhere = { trialId: "elsewhere", id: "elsewhere", enquiryId: "lost", patches: 20, recommended: null };
  await keep([
    belief,
    { ...belief, ...elsewhere, layers: [{ kindId: "alkyd", colour: "dark", thickness: 50e-6 }], lessons: [] },
  ]);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("like", () => {
  it("lists trials by likeness with what they found, in the published shape", async () => {
    const { code, out } = await run("like", "grey polyurethane over epoxy primer on 5083", "--data", data, "--json");
    expect(code).toBe(0);
    const wire = validatePublished("like", JSON.parse(out), "like");
    expect(wire.trials.map((t) => t.trial)).toEqual([
      "hatch-covers-continuous",
      "hatch-covers-pulsed",
      "elsewhere",
      "brackets-pulsed",
    ]);
    expect([wire.compared, wire.notCompared]).toEqual([4, 0]);
    const first = wire.trials.find((t) => t.trial === "hatch-covers-pulsed")!;
    expect(first.likeness).toBeCloseTo(1, 6);
    expect(first.words).toEqual(["same coat", "same metal"]);
    const plan = JSON.parse(readFileSync(example("hatch-covers.pulsed.trial.json"), "utf8"));
    expect(first.planned).toBe(plan.patches.length);
    // counted in the file by hand: rows with residue at most 5 %, and rows with condition above 2
    const rows = readFileSync(example("hatch-covers.pulsed.outcomes.csv"), "utf8").trim().split("\n");
    const header = rows[0]!.split(",");
    const column = (name: string) =>
      rows
        .slice(1)
        .map((r) => r.split(",")[header.indexOf(name)]!)
        .filter((cell) => cell !== "");
    expect(first.clean).toBe(column("residue_percent").filter((x) => Number(x) <= 5).length);
    expect(first.damaged).toBe(column("metalCondition").filter((x) => Number(x) > 2).length);
    expect(first.recommended?.proven).toBe(true);
    expect(first.recommended?.from).toBe("belief");
    expect(first.learnt).toEqual([{ coordinate: "metal:aluminium-5083:absorptance", mean: 2, spread: 0.3 }]);
    const lost = wire.trials.find((t) => t.trial === "elsewhere")!;
    expect([lost.planned, lost.graded, lost.clean, lost.noWindow]).toEqual([null, 20, null, true]);
    expect(wire.cautions.length).toBeGreaterThan(3);
  });

  it("says it in words, with what it did not understand and with cautions", async () => {
    const { out } = await run("like", "shiny white polyurethane on steel", "--laser", "pulsed-500", "--data", data);
    expect(out).toContain(
      "What is known of white polyurethane top coat on Low-carbon steel with Nanosecond pulsed 500 W: 4 trials compared",
    );
    expect(out).toContain("not understood: shiny");
    expect(out).toContain("aluminium instead of steel");
    expect(out).toMatch(/\d+ clean, \d+ damaged/);
    expect(out).toMatch(/recommended then, proven: power/);
    expect(out).toContain("absorptance higher by 2 (known to 0.3)");
    expect(out).toContain("Class 4 laser");
    expect(out).not.toContain("NaN");
    const none = await run("like", "oil film", "--data", data);
    expect(none.out).toContain("nothing like it has been tried");
    expect(none.out).toContain("laser safety officer");
  });

  it("asks for a part of an enquiry", async () => {
    const { out } = await run(
      "like",
      "--enquiry",
      enquiry,
      "--part",
      "brackets",
      "--data",
      data,
      "--most",
      "1",
      "--json",
    );
    const wire = validatePublished("like", JSON.parse(out), "like");
    expect(wire.trials.map((t) => [t.trial, t.words])).toEqual([["brackets-pulsed", ["same coat", "same metal"]]]);
  });

  it("refuses in one line, and makes no folder", async () => {
    const nowhere = join(folder, "nowhere");
    const refusal = async (...args: string[]) => {
      const { code, errors } = await run("like", ...args);
      expect(code).toBe(2);
      return errors.join("\n").replaceAll(folder, "");
    };
    expect(await refusal("rust", "--data", nowhere)).toBe("invalid data: /nowhere (there is no such folder)");
    expect(existsSync(nowhere)).toBe(false);
    expect(await refusal("rust", "--data", folder)).toBe("invalid data:  (holds no records of this program)");
    expect(await refusal("quux", "--data", data)).toMatch(/^invalid question: quux \(names no layer/);
    expect(await refusal("--data", data)).toMatch(/^invalid question: missing \(in words/);
    expect(await refusal("rust", "--enquiry", enquiry, "--data", data)).toMatch(/not both\)$/);
    expect(await refusal("rust", "--laser", "quux", "--data", data)).toMatch(/^invalid laser: quux \(/);
    expect(await refusal("--enquiry", enquiry, "--part", "quux", "--data", data)).toMatch(
      /^invalid part: quux \(one of: /,
    );
  });

  it("names trials that have no enquiry to compare by", async () => {
    const other = join(folder, "other");
    const files = [
      "--trial",
      example("brackets.pulsed.trial.json"),
      "--outcomes",
      example("brackets.pulsed.outcomes.csv"),
    ];
    await run("record", ...files, "--data", other);
    expect((await run("like", "rust", "--data", other)).out).toContain(
      "1 trial without a kept enquiry could not be compared",
    );
    const wrong = join(folder, "wrong.json");
    writeFileSync(
      wrong,
      JSON.stringify({ ...parseEnquiryFile(JSON.parse(readFileSync(enquiry, "utf8"))), id: "another" }),
    );
    const { code, errors } = await run("record", ...files, "--enquiry", wrong, "--data", other);
    expect([code, errors[0]]).toEqual([2, "invalid enquiry: another (the trial belongs to enquiry island-ferry-yard)"]);
  });
});

describe("--known", () => {
  const predict = (...more: string[]) =>
    run("predict", "--enquiry", enquiry, "--laser", "pulsed-100", "--setting", setting, "--draws", "16", ...more);

  it("moves the prediction and says what was carried", async () => {
    const plain = JSON.parse((await predict("--json")).out);
    const known = JSON.parse((await predict("--known", data, "--json")).out);
    expect(known.caveats.join("\n")).toContain(
      "absorptance of Aluminium 5083: from trial hatch-covers-pulsed (44 patches), counted half",
    );
    // a metal that takes up more light melts deeper
    expect(known.spreads.meltDepth_um.median).toBeGreaterThan(1.05 * plain.spreads.meltDepth_um.median);
    const words = (await predict("--known", data)).out;
    expect(words).toContain("Carried over from earlier trials\n  absorptance of Aluminium 5083");
    expect((await predict()).out).not.toContain("earlier trials");
  });

  it("says so where nothing speaks of the part, and refuses a folder that is not there", async () => {
    const { out } = await predict("--known", data, "--part", "brackets");
    expect(out).toContain("Earlier trials: none of them speaks of this coat or metal.");
    const { code, errors } = await predict("--known", join(folder, "nowhere"));
    expect([code, errors[0]?.replace(folder, "")]).toEqual([2, "invalid known: /nowhere (there is no such folder)"]);
  });
});
