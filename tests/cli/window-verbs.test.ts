import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { main } from "#cli";
import { validatePublished } from "#contract";
import { openStore } from "#store";
import { smallTrial } from "./small-trial.ts";

let folder = "";
let files = { enquiry: "", trial: "", outcomes: "" };
let data = "";
let edges = "";

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "window-"));
  files = smallTrial(folder);
  data = join(folder, "data");
  edges = join(folder, "small.edges.json");
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

const QUICK = ["--draws", "8", "--rays", "0"];
const evidence = () => ["--trial", files.trial, "--outcomes", files.outcomes];
const window = (...more: string[]) => run("window", "--enquiry", files.enquiry, ...evidence(), ...QUICK, ...more);

describe("window", () => {
  it("keeps the edges beside the trial and says the same with and without them, and from a damaged file", async () => {
    const first = await window("--json");
    expect(first.errors).toEqual([]);
    const text = readFileSync(edges, "utf8");
    expect(text.length).toBeLessThan(2_000_000);
    expect((await window("--json")).out).toBe(first.out);
    expect(readFileSync(edges, "utf8")).toBe(text);
    // One digit of one edge changed: the file is not whole, and what it says is not taken.
    const at = text.indexOf("edges") + 20;
    writeFileSync(edges, `${text.slice(0, at)}${text[at] === "A" ? "B" : "A"}${text.slice(at + 1)}`);
    expect((await window("--json")).out).toBe(first.out);
    expect(readFileSync(edges, "utf8")).toBe(text);
  });

  it("lays the next patches out on a further coupon of the same trial, which is kept over the earlier plan", async () => {
    const sheets = join(folder, "sheets");
    const common = ["--enquiry", files.enquiry, ...evidence(), ...QUICK];
    const { out, errors } = await run("next", ...common, "--sheets", sheets);
    expect(errors).toEqual([]);
    const before = validatePublished("trial", JSON.parse(readFileSync(files.trial, "utf8")), "trial");
    const file = join(sheets, `${before.id}.trial.json`);
    const after = validatePublished("trial", JSON.parse(readFileSync(file, "utf8")), "trial");
    expect(after.patches.slice(0, before.patches.length)).toEqual(before.patches);
    const added = after.patches.slice(before.patches.length);
    const named = JSON.parse((await run("next", ...common, "--json")).out).next as { setting: object }[];
    expect(added.filter((p) => p.setting !== null)).toHaveLength(named.length);
    expect(added.filter((p) => p.setting === null).map((p) => p.role)).toEqual(["untouched", "cleaned-reference"]);
    expect(new Set(added.map((p) => p.coupon)).size).toBe(1);
    const coupon = added[0]!.coupon;
    for (const name of [`coupon-${coupon}.pdf`, `frame-${coupon}.pdf`, `from-coupon-${coupon}.run-sheet.csv`])
      expect(out).toContain(join(sheets, `${before.id}.${name}`));
    const kept = join(folder, "stages");
    const record = (trial: string) => run("record", "--trial", trial, "--outcomes", files.outcomes, "--data", kept);
    expect((await record(files.trial)).code).toBe(0);
    expect((await record(file)).code).toBe(0);
    expect((await record(files.trial)).errors[0]).toMatch(/^invalid trial: .*another plan/);
  });

  it("does not take the edges of other inputs: another seed draws another book", async () => {
    const first = await window("--json");
    const text = readFileSync(edges, "utf8");
    const other = await window("--json", "--seed", "2");
    expect(other.out).not.toBe(first.out);
    expect(readFileSync(edges, "utf8")).not.toBe(text);
    expect((await window("--json", "--seed", "2")).out).toBe(other.out);
  });

  it("carries the verdict on stopping, what was learnt, the checks and the cautions in the published shape", async () => {
    const wire = validatePublished("window", JSON.parse((await window("--json")).out), "window");
    expect(wire.diagnostics.patches).toBe(6);
    expect(["go on", "recommend", "nothing found"]).toContain(wire.stop!.verdict);
    expect(wire.stop!.bestShare).toBeLessThanOrEqual(1);
    expect(wire.learnt!.pinned.map((n) => n.unit)).toEqual(["J/cm²", "J/cm²", ""]);
    for (const n of wire.learnt!.pinned) expect(n.posterior.low).toBeLessThan(n.posterior.high);
    expect(wire.learnt!.shifts.length).toBeGreaterThan(10);
    expect(wire.map!.conservative).toHaveLength(wire.map!.x.length * wire.map!.y.length);
    expect(wire.map!.points).toHaveLength(6);
    expect(wire.cautions.length).toBeGreaterThan(3);
  });

  it("says it in sections, each thing once", async () => {
    const { out } = await window();
    const heads = out.split("\n").filter((line) => /^[A-Z]/.test(line));
    const at = (head: string) => heads.findIndex((line) => line.startsWith(head));
    const order = ["Hatch covers with", "Stop: ", "What was learnt", "Checks", "Notes", "Next patches", "Cautions"];
    expect(order.map(at)).toEqual([...order.map(at)].sort((a, b) => a - b));
    expect(order.map(at)).not.toContain(-1);
    expect(out).toContain("6 patches graded, ");
    expect(out).toMatch(/What was learnt +before +after +spread left\n {2}peak fluence from which the layer is off/);
    expect(out).not.toMatch(/NaN|Infinity|undefined/);
    const said = out
      .slice(0, out.indexOf("Next patches"))
      .split("\n")
      .filter((line) => line.startsWith("  ") && line.length > 60);
    expect(new Set(said).size).toBe(said.length);
  });

  it("draws a map over two controls, and refuses names and shares that do not fit before any work", async () => {
    const { out } = await window("--map", "level,line-spacing");
    expect(out).toMatch(/Map: line spacing \(mm\) upwards, level from 0\.\d+ to 1 to the right/);
    expect(out.split("\n").filter((line) => /^ +[\d.]+ {2}([K·\d] ){20}[K·\d]$/.test(line))).toHaveLength(7);
    const wire = validatePublished(
      "window",
      JSON.parse((await window("--map", "level,passes", "--json")).out),
      "window",
    );
    expect([wire.map!.xName, wire.map!.yName]).toEqual(["level", "passes"]);
    expect(wire.map!.beyond).toHaveLength(wire.map!.x.length * wire.map!.y.length);
    const names = "power, level, duty, frequency, pulseWidth, speed, lineSpacing, passes, defocus";
    for (const [asked, says] of [
      [["--map", "level,colour"], `invalid map: level,colour (two of ${names}, for example speed,lineSpacing)`],
      [["--map", "speed"], `invalid map: speed (two of ${names}, for example speed,lineSpacing)`],
      [["--map", "speed,speed"], "invalid map: speed,speed (two different controls, for example speed,lineSpacing)"],
      [["--map", "speed,duty"], "invalid map: speed,duty (pulsed-500 has no duty to vary)"],
      [["--wrong-grades", "21"], "invalid wrong grades: 21 % (a number from 0 to 20)"],
      [["--wrong-grades", "few"], "invalid wrong grades: few % (a number from 0 to 20)"],
      [["--rays", "-1"], "invalid rays: -1 (a whole number from 0 to 512)"],
    ] as const) {
      const { code, out: none, errors } = await window(...asked);
      expect([code, none, errors]).toEqual([2, "", [says]]);
    }
  });

  it("weighs grades by the share of wrong ones that is known", async () => {
    const pinned = async (percent: string) => {
      const wire = validatePublished(
        "window",
        JSON.parse((await window("--wrong-grades", percent, "--json")).out),
        "window",
      );
      return wire.learnt!.pinned[0]!;
    };
    const [sure, unsure] = [await pinned("0"), await pinned("20")];
    // Grades that may be wrong one time in five teach less.
    expect(unsure.spreadLeft!).toBeGreaterThan(sure.spreadLeft!);
  });
});

describe("window --remember", () => {
  // A coat that stays on wherever it was burned teaches something of its own; many versions, so that it is no accident.
  let stubborn = "";
  beforeAll(() => {
    const [header, ...rows] = readFileSync(files.outcomes, "utf8").trim().split("\r\n");
    const at = header!.split(",").indexOf("residue_percent");
    const left = rows.map((row) => row.split(",").with(at, "80").join(","));
    stubborn = join(folder, "stubborn.csv");
    writeFileSync(stubborn, `${[header, ...left].join("\r\n")}\r\n`);
  });
  // Named with what it taught, or, where that hardly moves a number, without.
  const NAMED =
    /from trial hatch-covers-pulsed \(6 patches\), counted half|Earlier trials \(hatch-covers-pulsed\) taught/;
  const MANY = ["--draws", "24", "--rays", "0"];
  const seen = (trial: string, ...more: string[]) =>
    run("window", "--enquiry", files.enquiry, "--trial", trial, "--outcomes", stubborn, ...MANY, ...more);
  const setting = () => {
    const path = join(folder, "setting.json");
    writeFileSync(path, "{}");
    return path;
  };
  const predict = (...more: string[]) => {
    const asked = ["--enquiry", files.enquiry, "--laser", "pulsed-100", "--setting", setting()];
    return run("predict", ...asked, "--draws", "16", ...more);
  };
  const kept = async () => {
    const store = openStore(join(data, "scourlight.db"));
    const found = await store.read(async (r) => ({
      beliefs: await r.list("belief"),
      enquiries: await r.list("enquiry"),
    }));
    await store.close();
    return found;
  };

  it("keeps the belief and its enquiry; the next job moves and names the trial", async () => {
    const before = await predict("--json");
    expect((await seen(files.trial, "--remember", data)).out).toContain(
      "what 6 patches of trial hatch-covers-pulsed taught",
    );
    const { beliefs, enquiries } = await kept();
    expect(beliefs.map((b) => [b.record.trial, b.record.patches, b.record.builtOn])).toEqual([
      ["hatch-covers-pulsed", 6, []],
    ]);
    expect(enquiries.map((e) => e.id)).toEqual(["island-ferry-yard"]);
    const after = JSON.parse((await predict("--known", data, "--json")).out);
    expect(after.caveats.join("\n")).toMatch(NAMED);
    expect(after.spreads).not.toEqual(JSON.parse(before.out).spreads);
    const asked = ["--enquiry", files.enquiry, "--laser", "pulsed-500", "--setting", setting(), "--patches", "10"];
    const quick = ["--draws", "8", "--rays", "2", "--rehearse", "0", "--out", join(folder, "out")];
    const planned = validatePublished(
      "trial",
      JSON.parse((await run("plan", ...asked, ...quick, "--known", data, "--json")).out),
      "trial",
    );
    expect(planned.reasons.join("\n")).toMatch(NAMED);
    expect(planned.reasons.join("\n")).not.toContain("Rehearsed");
  });

  it("does not count a trial twice: not before its own outcomes, and not when it is remembered again", async () => {
    const plain = await seen(files.trial, "--json");
    const own = await seen(files.trial, "--known", data, "--remember", data, "--json");
    const without = (text: string) => ({ ...JSON.parse(text), caveats: [] });
    expect(without(own.out)).toEqual(without(plain.out));
    expect(JSON.parse(own.out).caveats).toContain("Earlier trials: none of them speaks of this coat or metal.");
    const { beliefs } = await kept();
    expect(beliefs).toHaveLength(1);
    expect([beliefs[0]!.version, beliefs[0]!.record.builtOn]).toEqual([2, []]);
  });

  it("names the trials that a later belief was built on", async () => {
    const next = JSON.parse(readFileSync(files.trial, "utf8"));
    const trial = join(folder, "later.trial.json");
    writeFileSync(trial, JSON.stringify({ ...next, id: "later" }));
    const { out, errors } = await seen(trial, "--known", data, "--remember", data);
    expect(errors).toEqual([]);
    expect(out).toMatch(NAMED);
    const { beliefs } = await kept();
    expect(beliefs.find((b) => b.id === "later")!.record.builtOn).toEqual(["hatch-covers-pulsed"]);
  });

  it("refuses another enquiry's trial and an empty table, and then keeps nothing", async () => {
    const nowhere = join(folder, "nowhere");
    const empty = join(folder, "empty.csv");
    writeFileSync(empty, `${readFileSync(files.outcomes, "utf8").split("\r\n")[0]}\r\n`);
    const args = ["--enquiry", files.enquiry, "--trial", files.trial, ...QUICK, "--remember", nowhere];
    const nothing = await run("window", ...args, "--outcomes", empty);
    expect(nothing.code).toBe(2);
    expect(nothing.errors[0]).toMatch(/^invalid outcomes/);
    expect(existsSync(nowhere)).toBe(false);
  });
});

describe("transfer", () => {
  const transfer = (...more: string[]) => run("transfer", files.enquiry, ...evidence(), ...QUICK.slice(0, 2), ...more);

  it("prints setting or the lack of one, and the patches that verify it, in the published shape", async () => {
    const { code, out, errors } = await transfer("--laser", "pulsed-200", "--rays", "4", "--lens", "f254", "--json");
    expect([code, errors]).toEqual([0, []]);
    const wire = validatePublished("transfer", JSON.parse(out), "transfer");
    expect([wire.trial, wire.from, wire.laser, wire.lens]).toEqual([
      "hatch-covers-pulsed",
      "pulsed-500",
      "pulsed-200",
      "f254",
    ]);
    for (const patch of wire.verification) expect(patch.setting.lens).toBe("f254");
    expect(wire.verification.length).toBeGreaterThanOrEqual(3);
    if (wire.setting === null) expect([wire.areaRate_m2_per_h, wire.share]).toEqual([null, null]);
    else expect(wire.verification[0]!.setting).toEqual(wire.setting);
    expect(wire.cautions.length).toBeGreaterThan(3);
  });

  it("says in words what it carries and what to burn there", async () => {
    const { out } = await transfer("--laser", "pulsed-200", "--rays", "4");
    expect(out).toContain("trial hatch-covers-pulsed on Nanosecond pulsed 500 W, carried to Nanosecond pulsed 200 W");
    expect(out).toContain("the misfit of the physics is widened by half of its prior spread");
    expect(out).toContain("Patches that verify it there, in this order\n  1. power ");
    expect(out).toContain("laser safety officer");
    expect(out).not.toMatch(/NaN|Infinity|undefined/);
  });

  it("refuses an unknown set-up and a lens that it lacks before any work", async () => {
    const refusal = async (...more: string[]) => {
      const { code, out, errors } = await transfer(...more);
      expect([code, out, errors.length]).toEqual([2, "", 1]);
      return errors[0];
    };
    expect(await refusal("--laser", "pulsed-9")).toMatch(/^invalid laser: pulsed-9 \(/);
    expect(await refusal("--laser", "pulsed-100", "--lens", "f1")).toMatch(/^invalid lens: f1 \(pulsed-100 has f/);
    expect(await refusal("--laser", "pulsed-100", "--enquiry", files.enquiry)).toMatch(/not both\)$/);
    const { errors } = await run("transfer", ...evidence(), "--laser", "pulsed-100");
    expect(errors[0]).toBe("invalid enquiry: missing (the enquiry file of the trial)");
  });
});
