import { describe, expect, it } from "vitest";
import { outcomesToCsv, parseOutcomesCsv, plainText, runSheetCsv, safeText } from "#contract";
import type { Outcome } from "#terms";
import { linesOf } from "./lines.ts";
import { pulsed, trial } from "./shelves.ts";

const read = (text: string) => parseOutcomesCsv(text, trial);
const refusal = (text: string) => linesOf(() => read(text))[0];

const blank: Outcome = {
  trialId: "trial-1",
  patch: 1,
  residueFraction: null,
  residueUncertainty: null,
  metalCondition: null,
  lightness: null,
  roughnessBefore: null,
  roughnessAfter: null,
  thicknessBefore: null,
  thicknessAfter: null,
  temperature: null,
  tests: [],
  grader: "",
  note: "",
};

describe("outcomes from CSV", () => {
  it("are read in SI, every column", () => {
    const header =
      "patch,residue_percent,residueUncertainty_percent,metalCondition,lightness,roughnessBefore_um,roughnessAfter_um,thicknessBefore_um,thicknessAfter_um,temperature_degC,grader,note,test:pull-off";
    const { accepted, refused } = read(
      `${header}\n2,12.5,2,1,61.2,1.2,1.5,80,3.5,140,A,"two words, a comma",6.2 MPa pass\n`,
    );
    expect(refused).toEqual([]);
    expect(accepted).toEqual([
      {
        ...blank,
        patch: 2,
        residueFraction: 0.125,
        residueUncertainty: 0.02,
        metalCondition: 1,
        lightness: 61.2,
        roughnessBefore: 1.2e-6,
        roughnessAfter: 1.5e-6,
        thicknessBefore: 80e-6,
        thicknessAfter: 3.5e-6,
        temperature: 413.15,
        tests: [{ kind: "pull-off", method: "ISO 4624", limit: "", value: "6.2 MPa", passed: true }],
        grader: "A",
        note: "two words, a comma",
      },
    ]);
  });

  it("take byte order mark, semicolons, decimal commas, CRLF and empty lines", () => {
    const { accepted, refused } = read(
      "\uFEFFpatch;residue_percent;thicknessAfter_um\r\n1;12,5;3,5\r\n\r\n2;0;0,002 mm\r\n",
    );
    expect(refused).toEqual([]);
    expect(accepted.map((o) => [o.patch, o.residueFraction, o.thicknessAfter])).toEqual([
      [1, 0.125, 3.5e-6],
      [2, 0, 2e-6],
    ]);
  });

  it("take tabs as a spreadsheet copies them", () => {
    expect(read("patch\tresidue_percent\n1\t7,5\n").accepted[0]?.residueFraction).toBe(0.075);
  });

  it("refuse a row with its line number and keep the rest", () => {
    const { accepted, refused } = read(
      [
        "patch,residue_percent,metalCondition,thicknessAfter_um,note",
        "1,120,0,3,",
        '2,5,0,3,"first line',
        'second line"',
        "9,5,0,3,",
        "3,-1,0,3,",
        "3,5,7,3,",
        "3,5,0,35 s,",
        '3,"3,5",0,3,',
        "3,3,5,0,3,",
        "2,6,0,3,again",
        "4,,,,",
        "x,5,0,3,",
        "3,5,0,3,ok",
      ].join("\n"),
    );
    expect(accepted.map((o) => [o.patch, o.note])).toEqual([
      [2, "first line\nsecond line"],
      [3, "ok"],
    ]);
    expect(refused.map((r) => r.line)).toEqual([2, 5, 6, 7, 8, 9, 10, 11, 12, 13]);
    const messages = refused.map((r) => r.message);
    expect(messages[0]).toBe("invalid residue_percent: 120 % (must be at most 100 %)");
    expect(messages[1]).toBe("invalid patch: 9 (is not in trial trial-1)");
    expect(messages[2]).toBe("invalid residue_percent: -1 % (must be at least 0 %)");
    expect(messages[3]).toBe("invalid metalCondition: 7 (must be 0, 1, 2, 3 or 4)");
    expect(messages[4]).toMatch(/^invalid thicknessAfter_um: 35 s \(needs a length/);
    expect(messages[5]).toMatch(
      /^invalid residue_percent: 3,5 \(a decimal comma needs a file separated by semicolons\)/,
    );
    expect(messages[6]).toMatch(/^invalid row: 6 cells \(the header has 5; a decimal comma/);
    expect(messages[7]).toBe("invalid patch: 2 (already on line 3 from the same grader)");
    expect(messages[8]).toBe("invalid row: empty (nothing was observed on this patch)");
    expect(messages[9]).toBe("invalid patch: x (must be the number of a patch)");
  });

  it("keep the same patch from two graders", () => {
    const { accepted, refused } = read("patch,residue_percent,grader\n1,5,A\n1,7,B\n");
    expect(refused).toEqual([]);
    expect(accepted.map((o) => o.grader)).toEqual(["A", "B"]);
  });

  it("take a residue from points looked at, with the doubt that their number leaves", () => {
    const { accepted, refused } = parseOutcomesCsv(
      "patch,points,pointsWithResidue,residue_percent,note,grader\n1,59,0,,none felt,\n2,20,3,,,\n1,20,,,,\n1,,2,,,\n1,20,3,4,,\n1,20,21,,,\n",
      trial,
    );
    // Beta(0.5, 59.5) and Beta(3.5, 17.5): means 0.5/60 and 3.5/21
    expect(accepted.map((o) => [o.patch, o.residueFraction])).toEqual([
      [1, expect.closeTo(0.5 / 60, 9)],
      [2, expect.closeTo(3.5 / 21, 9)],
    ]);
    expect(accepted[0]!.residueUncertainty).toBeCloseTo(Math.sqrt((0.5 * 59.5) / (60 ** 2 * 61)), 9);
    expect(refused.map((r) => [r.line, r.message])).toEqual([
      [4, "invalid pointsWithResidue: missing (needed beside points)"],
      [5, "invalid points: missing (needed beside pointsWithResidue)"],
      [6, "invalid residue_percent: 4 % (either this or points)"],
      [7, expect.stringMatching(/^invalid points with residue: 21 /)],
    ]);
  });

  it("take what was found after 30 and 90 days beside what was seen at first", () => {
    const { accepted, refused } = read(
      "patch,residue_percent,grader,test:pull-off,daysAfter,note\n1,1,Kim,,,\n1,,Kim,1.2 MPa fail,90,lifts\n2,4,,,30,\n2,,,,30,\n1,3,,,0,\n",
    );
    expect(accepted.map((o) => [o.grader, o.note, o.residueFraction])).toEqual([
      ["Kim", "", 0.01],
      ["Kim, after 90 days", "lifts Found after 90 days.", null],
      ["after 30 days", "Found after 30 days.", 0.04],
    ]);
    expect(accepted[1]!.tests[0]).toMatchObject({ kind: "pull-off", value: "1.2 MPa", passed: false });
    expect(refused.map((r) => r.message)).toEqual([
      "invalid daysAfter: 30 (a finding needs a test, a residue or a metal condition beside it)",
      "invalid daysAfter: 0 (must be whole days from 1 to 3650)",
    ]);
  });

  it("name unknown and doubled columns at the header and read the rest", () => {
    const { accepted, refused } = read("\npatch,residu_percent,test:smell,patch,metalCondition\n1,5,bad,2,0\n");
    expect(accepted).toEqual([{ ...blank, metalCondition: 0 }]);
    expect(refused.map((r) => r.line)).toEqual([2, 2, 2]);
    expect(refused[0]?.message).toMatch(
      /^invalid column: residu_percent \(unknown and not read; known: patch, residue_percent/,
    );
    expect(refused[1]?.message).toMatch(/^invalid column: test:smell \(unknown and not read; known: test:profile/);
    expect(refused[2]?.message).toMatch(/^invalid column: patch \(named twice/);
  });

  it("take method and limit of a test from what was asked", () => {
    const wanted = [{ kind: "pull-off" as const, method: "own", limit: "at least 5 MPa", value: null, passed: null }];
    const { accepted } = parseOutcomesCsv("patch,test:pull-off\n1,fail\n2,4.1 MPa\n", trial, wanted);
    expect(accepted.map((o) => o.tests[0])).toEqual([
      { ...wanted[0], value: null, passed: false },
      { ...wanted[0], value: "4.1 MPa", passed: null },
    ]);
  });

  it("refuse what cannot be read at all in one line", () => {
    expect(refusal("")).toBe("invalid outcomes file: empty (must have a header line and rows)");
    expect(refusal('"')).toMatch(/^invalid outcomes file: empty/);
    expect(refusal("\uFEFF \n\n")).toMatch(/^invalid outcomes file: empty/);
    expect(refusal("patch,residue_percent\n")).toMatch(/^invalid outcomes file: header only/);
    expect(refusal("a,b\n1,2\n")).toBe("invalid outcomes file: a b (the header line needs the column patch)");
    expect(refusal(`patch\n${"1\n".repeat(11_000_000)}`)).toMatch(/^invalid outcomes file: 22.0 MB/);
  });

  it("refuse a quotation that never closes without losing the rows before it", () => {
    const { accepted, refused } = read('patch,residue_percent,note\n1,5,fine\n2,5,"open\n3,5,swallowed\n');
    expect(accepted.map((o) => o.patch)).toEqual([1]);
    expect(refused).toEqual([
      { line: 3, message: "invalid row: unfinished (a quotation mark opens and never closes)" },
    ]);
  });

  it("of 10,000 rows take well under a second and name every line", () => {
    const rows = Array.from({ length: 10_000 }, (_, i) => `${i + 1},5,0`).join("\n");
    const before = performance.now();
    const { accepted, refused } = read(`patch,residue_percent,metalCondition\n${rows}\n`);
    expect(performance.now() - before).toBeLessThan(1000);
    expect(accepted).toHaveLength(4);
    expect(refused).toHaveLength(9996);
    expect(refused.at(-1)).toEqual({ line: 10_001, message: "invalid patch: 10000 (is not in trial trial-1)" });
  });
});

describe("outcomes to CSV", () => {
  it("come back as they were, texts that look like formulas too", () => {
    const outcomes: Outcome[] = [
      { ...blank, residueFraction: 0.07, temperature: 300.15, grader: "=1+1", note: "-dash\nand 'quote' and \"more\"" },
      {
        ...blank,
        patch: 2,
        metalCondition: 4,
        note: "'@x",
        tests: [{ kind: "hardness", method: "ISO 6507-1", limit: "", value: "+5 HV", passed: false }],
      },
    ];
    const text = outcomesToCsv(outcomes);
    expect(text).toContain(",'=1+1,");
    expect(text).toContain("'+5 HV fail");
    expect(read(text)).toEqual({ accepted: outcomes, refused: [] });
  });

  it("leave no free text that a spreadsheet would run", () => {
    for (const text of ["=1", "+1", "-1", "@a", "\t=1", "'=1", "plain", ""]) {
      expect(safeText(text)).not.toMatch(/^[=+\-@\t\r]/);
      expect(plainText(safeText(text))).toBe(text);
    }
  });
});

describe("the run sheet", () => {
  const lines = runSheetCsv(trial, pulsed, ["salts"]).split("\r\n");

  it("lists the patches in run order, in the units of the machine's panel, with empty columns to fill", () => {
    expect(lines[0]).toBe(
      "runOrder,patch,coupon,couponLabel,x_mm,y_mm,width_mm,height_mm,role,wait_s,laser,lens,power_W,level_percent,frequency_kHz,pulseWidth_ns,duty_percent,speed_mm_per_s,lineSpacing_mm,passes,defocus_mm,residue_percent,residueUncertainty_percent,metalCondition,lightness,roughnessBefore_um,roughnessAfter_um,thicknessBefore_um,thicknessAfter_um,temperature_degC,grader,note,test:salts",
    );
    expect(lines[1]).toBe(
      "1,2,1,'=A1,5,5,15,15,test,40,pulsed-100,f160,100,80,100,100,100,3000,0.04,2,-0.5,,,,,,,,,,,,",
    );
    expect(lines.slice(1, 5).map((l) => l.split(",")[1])).toEqual(["2", "3", "1", "4"]);
  });

  it("comes back filled in as outcomes", () => {
    const filled = lines.map((l) => (l.startsWith("1,2,") ? l.replace(/,,,,,,,,,,,,$/, ",0.5,,0,,,,,,,A,,pass") : l));
    const { accepted, refused } = read(filled.join("\r\n"));
    expect(accepted).toHaveLength(1);
    expect(accepted[0]).toMatchObject({ patch: 2, residueFraction: 0.005, metalCondition: 0, grader: "A" });
    expect(accepted[0]?.tests[0]).toMatchObject({ kind: "salts", passed: true });
    expect(refused.every((r) => r.message.includes("nothing was observed"))).toBe(true);
  });
});
