import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { main } from "#cli";
import { validatePublished } from "#contract";
import { designNames } from "#trial";

const enquiry = join(new URL("../..", import.meta.url).pathname, "examples/enquiry.json");
let folder = "";
let setting = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "plan-"));
  setting = join(folder, "mid.json");
  writeFileSync(setting, '{"passes": 2}');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function plan(...args: string[]) {
  const out: string[] = [];
  const errors: string[] = [];
  const fixed = ["--enquiry", enquiry, "--laser", "pulsed-500", "--setting", setting, "--draws", "8"];
  const code = await main(
    ["node", "scourlight", "plan", ...fixed, "--out", join(folder, "out"), ...args],
    (text) => out.push(text),
    (text) => errors.push(text),
  );
  return { code, out: out.join("\n"), errors };
}

describe("plan with a design and a spacing", () => {
  it("prints gap, limit and waits in the published shape, the same on the run sheet", async () => {
    const args = ["--design", "box-behnken", "--patches", "36", "--gap-limit", "1", "--id", "bb", "--json"];
    const { code, out } = await plan(...args);
    expect(code).toBe(0);
    const trial = validatePublished("trial", JSON.parse(out), "trial");
    expect(trial.design).toBe("box-behnken");
    expect(trial.spacing!.limit_K).toBe(1);
    expect(trial.spacing!.warmest_K).toBeLessThanOrEqual(1);
    expect(trial.spacing!.wait_s).toBe(Math.max(...trial.patches.map((p) => p.wait_s ?? 0)));
    expect(trial.spacing!.wait_s).toBeGreaterThan(0);
    expect(trial.reasons.join(" ")).toContain("Box-Behnken of power, speed, frequency");
    expect(trial.cautions.length).toBeGreaterThan(3);
    const [header, ...rows] = readFileSync(join(folder, "out", "bb.run-sheet.csv"), "utf8")
      .trim()
      .split("\r\n");
    const column = header!.split(",").indexOf("wait_s");
    const waits = [...trial.patches].filter((p) => p.runOrder > 0).sort((a, b) => a.runOrder - b.runOrder);
    expect(rows.slice(0, waits.length).map((row) => Number(row.split(",")[column]))).toEqual(
      waits.map((p) => p.wait_s),
    );
    const sheet = readdirSync(join(folder, "out")).filter((n) => n.startsWith("bb.coupon") && n.endsWith(".svg"));
    expect(readFileSync(join(folder, "out", sheet[0]!), "utf8")).toContain("wait first where a patch says so");
  });

  it("says in words what it planned, on a coupon of one's own", async () => {
    const { code, out } = await plan(
      ...["--design", "central-composite", "--face-centred", "--patches", "30", "--id", "ccf"],
      ...["--coupon", "200x120", "--patch", "12 x 12", "--gap", "6", "--rim", "8"],
    );
    expect(code).toBe(0);
    expect(out).toContain("axial points on the faces");
    expect(out).toContain("Heat soak: gap");
    expect(out).toContain("D-efficiency for straight effects");
    expect(out).toContain("laser safety officer");
    const trial = validatePublished(
      "trial",
      JSON.parse(readFileSync(join(folder, "out", "ccf.trial.json"), "utf8")),
      "trial",
    );
    expect([trial.coupons[0]!.width_mm, trial.coupons[0]!.height_mm]).toEqual([200, 120]);
    expect(trial.patches[0]!.width_mm).toBe(12);
    expect(trial.spacing!.gap_mm).toBeGreaterThanOrEqual(6);
  });

  it("names every design in its help", async () => {
    const { out } = await plan("--help");
    const words = out.replace(/\s+/g, " ");
    for (const name of designNames) expect(words).toContain(name);
  });

  it.each([
    [["--design", "star"], "invalid design: star (must be one of physics-guided, factorial,"],
    [["--gap-limit", "0"], "invalid gap limit: 0 K (a number, above 0)"],
    [["--gap-limit", "warm"], "invalid gap limit: warm K (a number, above 0)"],
    [["--coupon", "150"], "invalid coupon: 150 mm (width x height, for example 150x100)"],
    [["--coupon", "150xwide"], "invalid coupon height: wide mm (a number, above 0)"],
    [["--patch", "0x15"], "invalid patch width: 0 mm (a number, above 0)"],
    [["--patch", "400x15", "--coupon", "500x100"], "invalid patch width: 400 mm (at most"],
    [["--gap", "-1"], "invalid gap: -1 mm (a number, 0 or more)"],
    [["--rim", ""], "invalid rim: missing mm (a number, 0 or more)"],
    [["--face-centred"], "invalid face-centred: physics-guided (only goes with the design central-composite)"],
    [
      ["--design", "box-behnken", "--patches", "12"],
      "invalid design: box-behnken (needs at least 13 settings beside the",
    ],
    [["--coupon", "20x20"], "invalid patch width: 15 mm (at most 0 mm on a coupon of 20 mm with a rim of 10 mm)"],
  ])("refuses %j in one clear line", async (args, says) => {
    const { code, out, errors } = await plan(...args);
    expect([code, out, errors.length]).toEqual([2, "", 1]);
    expect(errors[0]!.slice(0, says.length)).toBe(says);
  });
});
