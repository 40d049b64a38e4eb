import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { createHash } from "node:crypto";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { main } from "#cli";
import { parseOutcomesCsv, parseTrial, validatePublished } from "#contract";
import { openStore } from "#store";
import { lapseOf } from "../../src/cli/lapse.ts";

/** The photographs of the invented example, drawn by the generator of the tests from the example's outcomes. */
const root = new URL("../..", import.meta.url).pathname;
const trialFile = join(root, "examples/hatch-covers.pulsed.trial.json");
const photoFolder = join(root, "examples/photos/hatch-covers.pulsed.coupon-1");
const fixed = ["--enquiry", join(root, "examples/enquiry.json"), "--trial", trialFile];
let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "grade-"));
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
const grade = (...args: string[]) => run("grade", ...fixed, "--out", join(folder, "out"), ...args);

describe("grade", () => {
  it("turns photographs into readings, outcomes and a picture, and keeps the originals", async () => {
    const data = join(folder, "data");
    await run(
      "record",
      "--trial",
      trialFile,
      "--outcomes",
      join(root, "examples/hatch-covers.pulsed.outcomes.csv"),
      "--data",
      data,
    );
    const rulings = join(folder, "rulings.csv");
    writeFileSync(rulings, "patch,grader,residue_percent,metalCondition,note\n4,Kim,9,,\n6,Kim,,,\n13,Kim,,3,melted\n");
    const { code, out } = await grade("--photos", photoFolder, "--rulings", rulings, "--data", data, "--json");
    expect(code).toBe(0);
    const shown = JSON.parse(out);
    const grading = validatePublished("grading", shown.gradings[0], "grading");
    expect(grading.photos.map((p) => [p.name, p.read, p.markers])).toEqual(
      [0, 1, 2, 3].map((turn) => [`turn-${turn}.jpg`, true, 8]),
    );
    expect(shown.refused).toEqual([]);
    expect(grading.cautions.length).toBeGreaterThan(3);
    // what the generator was told
    const trial = parseTrial(JSON.parse(readFileSync(trialFile, "utf8")));
    const told = parseOutcomesCsv(readFileSync(join(root, "examples/hatch-covers.pulsed.outcomes.csv"), "utf8"), trial);
    for (const { patch, read } of grading.patches) {
      if (read === null) continue;
      const truth = 100 * told.accepted.find((o) => o.patch === patch)!.residueFraction!;
      expect(Math.abs(read.residue_percent! - truth), `patch ${patch}`).toBeLessThan(
        2 + 2 * read.residueUncertainty_percent!,
      );
    }
    const of = (patch: number) => grading.patches.find((p) => p.patch === patch)!;
    expect(of(4).outcome!.residue_percent).toBe(9);
    expect(of(4).read!.residue_percent).not.toBe(9);
    expect(of(13).outcome!.metalCondition).toBe(3);
    expect(shown.wrongReadings).toMatchObject({ looked: 3 });

    const csv = readFileSync(join(folder, "out/hatch-covers-pulsed.photographs.outcomes.csv"), "utf8");
    const back = parseOutcomesCsv(csv, trial);
    expect(back.refused).toEqual([]);
    expect(back.accepted).toHaveLength(22);
    expect(back.accepted.every((o) => o.grader === "photographs" && o.residueUncertainty! > 0)).toBe(true);
    const svg = readFileSync(join(folder, "out/hatch-covers-pulsed.coupon-1.graded.svg"), "utf8");
    expect(svg).toContain("data:image/jpeg;base64,");
    expect(svg).toContain("Class 4 laser");
    // The picture itself is text in which any three letters may stand together.
    expect(svg.replace(/base64,[^"]+/, "")).not.toMatch(/NaN|undefined/);

    const store = openStore(join(data, "scourlight.db"));
    try {
      await store.read(async (r) => {
        expect((await r.latest("grading", "hatch-covers-pulsed.coupon-1"))!.record).toEqual(grading);
        expect((await r.outcomes("hatch-covers-pulsed")).filter((o) => o.grader === "photographs")).toHaveLength(22);
      });
      for (const name of readdirSync(photoFolder)) {
        const bytes = readFileSync(join(photoFolder, name));
        const sha256 = createHash("sha256").update(bytes).digest("hex");
        expect(Buffer.from((await store.photo(sha256))!).equals(bytes)).toBe(true);
      }
    } finally {
      await store.close();
    }
  }, 60_000);

  it("goes on past what is no photograph, and says so in a line", async () => {
    const other = join(folder, "other.jpg");
    writeFileSync(other, "not a picture");
    const { code, out } = await grade(
      "--out",
      join(folder, "one"),
      "--photos",
      other,
      join(photoFolder, "turn-0.jpg"),
      join(photoFolder, "turn-0.jpg"),
    );
    expect(code).toBe(0);
    expect(out).toContain("other.jpg: invalid photo: another kind of file (must be a JPEG, PNG or HEIC picture)");
    expect(out).toContain("1 photographs looked at, 1 read");
    expect(out).toContain("one photograph: Patch");
    expect(out).toMatch(/ 4 {2}(clean|residue|near the limit): \d/);
    expect(out).not.toMatch(/NaN|undefined|safe\b/);
  }, 30_000);

  it("refuses a ruler that cannot be, greys that are no seven, files that are not there and rulings beyond 100 %", async () => {
    expect((await grade("--photos", photoFolder, "--ruler", "20")).errors).toEqual([
      "invalid ruler: 20 mm (within a tenth of the 180 mm that the frame sheet says)",
    ]);
    expect((await grade("--photos", photoFolder, "--greys", "20", "30")).errors[0]).toMatch(/^invalid grey steps: 2 /);
    expect((await grade("--photos", join(folder, "nowhere"))).errors[0]).toMatch(/^invalid photos: .*no such file/);
    const bad = join(folder, "bad.csv");
    writeFileSync(bad, "patch,grader,residue_percent\n4,Kim,120\n");
    expect((await grade("--photos", photoFolder, "--rulings", bad)).errors).toEqual([
      "invalid residue_percent on line 2: 120 % (must be from 0 to 100)",
    ]);
  });

  it("takes what was ruled over into the window's share of wrong readings", async () => {
    const common = ["--outcomes", join(root, "examples/hatch-covers.pulsed.outcomes.csv")];
    const both = await run("window", ...fixed, ...common, "--gradings", "a.json", "--wrong-grades", "3");
    expect(both.errors).toEqual(["invalid wrong grades: 3 % (either this or --gradings, which teach the share)"]);
    const none = await run("window", ...fixed, ...common, "--gradings", trialFile);
    expect(none.errors[0]).toMatch(/^invalid /);
    expect(none.code).toBe(2);
    const graded = join(folder, "out/hatch-covers-pulsed.coupon-1.graded.json");
    // 3 of 22 were looked at and one of them turned: (0.5 + 1) of (20 + 3)
    const record = JSON.parse(readFileSync(graded, "utf8"));
    record.patches.find((p: { patch: number }) => p.patch === 6).ruling.residue_percent = 40;
    writeFileSync(graded, JSON.stringify(record));
    const { lapse } = await lapseOf({ gradings: [graded] });
    expect(lapse).toBeCloseTo(1.5 / 23, 12);
    expect(await lapseOf({ wrongGrades: 0 })).toEqual({ lapse: 1e-4 });
    expect((await lapseOf({ wrongGrades: 5 })).lapse).toBeCloseTo(0.05, 12);
    expect(await lapseOf({})).toEqual({});
  });
});
