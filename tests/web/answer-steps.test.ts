import { describe, expect, it } from "vitest";
import { comparisonToWire, detailsToWire, exampleShop, settingFromWire } from "#contract";
import { setup, setups } from "#library";
import { answerDetails, partCautions } from "#workflows";
import { paperUrl } from "../../src/web/api/answers.ts";
import { stepStates } from "../../src/web/enquiry/step-states.ts";
import { sideRows } from "../../src/web/steps/comparison/side-rows.ts";
import { settingChoices } from "../../src/web/steps/economy/setting-choices.ts";
import { comparedRows, ofModel, ofWire } from "../../src/web/steps/lasers/compared.ts";
import { missingOf } from "../../src/web/steps/report/missing.ts";
import { answer } from "../report/fixture.ts";

const cautionsOf = (partId: string) => (id: string) =>
  partCautions(answer.parts.find((p) => p.part.id === partId)!.part, setup(id));
const wire = detailsToWire(
  answerDetails(answer, { setups, shop: exampleShop() }),
  { enquiry: answer.enquiry.id, modelVersion: answer.modelVersion },
  cautionsOf,
);
const [proven, predicted] = wire.parts;
const { trial, outcomes } = answer.parts[0].trials[0];
const record = { trial, outcomes, savedAt: "2026-01-01T00:00:00Z" };
const other = {
  ...record,
  trial: {
    ...trial,
    id: "other",
    patches: trial.patches.map((p) => ({ ...p, setting: p.setting && { ...p.setting, pulseWidth: null } })),
  },
};

describe("the list of steps", () => {
  const states = (trials: Parameters<typeof stepStates>[1], answers = 0, shop = 0, compared = false) =>
    stepStates({}, trials, answers, shop, null, compared);

  it("says whether both kinds of laser were tried", () => {
    expect(states([]).comparison.fill).toBe("none");
    expect(states([{ ...record, outcomes: [] }]).comparison.fill).toBe("none");
    expect(states([record]).comparison.fill).toBe("half");
    expect(states([record, { ...record, trial: { ...trial, id: "again" } }]).comparison.fill).toBe("half");
    expect(states([record, other]).comparison.fill).toBe("full");
  });

  it("says whose figures the cost rests on", () => {
    expect(states([]).economy.words).toBe("needs a setting");
    expect(states([], 1).economy).toEqual({ fill: "half", words: "invented figures" });
    expect(states([], 0, 0, true).economy.words).toBe("invented figures");
    expect(states([], 1, 2).economy).toEqual({ fill: "full", words: "own figures" });
  });
});

describe("settings that safety and cost are worked out for", () => {
  it("come from the answer first, and from the trial of the other kind where it has one", () => {
    const [first, ...rest] = settingChoices(proven, null, null, (id) => id);
    expect(first).toMatchObject({ id: "answer", setupId: proven.laser, tag: "proven" });
    expect(first.setting).toEqual(settingFromWire(proven.setting!));
    expect(rest).toEqual([]);
    const side = { ...proven.evidence!.pulsed!, kind: "continuous" as const, laser: "continuous-1500" };
    const both = { ...proven, evidence: { ...proven.evidence!, continuous: side } };
    expect(settingChoices(both, null, null, (id) => id).map((c) => [c.id, c.setupId])).toEqual([
      ["answer", proven.laser],
      ["continuous", "continuous-1500"],
    ]);
    expect(settingChoices(null, null, null, (id) => id)).toEqual([]);
  });
});

describe("a comparison by prediction", () => {
  it("reads the same from the worker and from a kept answer", () => {
    const { comparison } = answer.parts[0];
    const found = ofModel(comparison!);
    expect(ofWire(comparisonToWire(comparison!, cautionsOf(proven.part)))).toEqual(found);
    expect(found.eachAtBest.pulsed).toHaveLength(comparedRows.length);
    expect(found.equalPower.continuous).toBeNull();
  });
});

describe("a comparison by what was burned", () => {
  it("has a cell for each row, with its unit, and dashes where no window was found", () => {
    const side = proven.evidence!.pulsed!;
    const cells = Object.fromEntries(sideRows.map(([name, show]) => [name, show(side)]));
    expect(cells["Burned again"]).toMatch(/^\d+ times, \d+ clean and undamaged$/);
    expect(cells["Area rate"]).toMatch(/^[\d.]+ m²\/h$/);
    expect(cells.Cost).toMatch(/^[\d.]+ EUR\/m² \([\d.]+ to [\d.]+\)$/);
    const bare = { ...side, recommended: null, meanPower_W: null, cost_per_m2: null, eyewear: null };
    for (const [name, show] of sideRows) expect(show(bare), name).not.toMatch(/NaN|null|undefined/);
    expect(sideRows.find(([name]) => name === "Setting")?.[1](bare)).toBe("no window found");
  });
});

describe("what a paper still lacks", () => {
  const known = { part: proven, unknowns: [], invented: false, shopVersion: 1, shopNow: 1, approver: "R. Example" };

  it("is said one by one, and nothing where nothing lacks", () => {
    const whole = { ...proven, notMeasured: [] };
    expect(missingOf({ ...known, part: whole })).toEqual([]);
    expect(missingOf({ ...known, part: whole, approver: " " })).toHaveLength(1);
    expect(missingOf({ ...known, part: whole, shopNow: 2 })[0]).toContain("changed since this answer");
    expect(missingOf({ ...known, part: whole, shopVersion: 0, shopNow: 0 })[0]).toContain("invented example figures");
    expect(missingOf({ ...known, part: { ...whole, notMeasured: ["pull-off (ISO 4624)"] } })).toEqual([
      "Pull-off (ISO 4624): asked for and not measured.",
    ]);
    expect(missingOf({ ...known, part: { ...whole, footing: "predicted", words: predicted.words } })[0]).toBe(
      predicted.words,
    );
    expect(missingOf({ ...known, part: whole, unknowns: ["chromate content"] })[0]).toContain("Chromate content");
  });
});

describe("the address of a paper", () => {
  it("leaves out what is left open, and carries the rest whatever is in it", () => {
    const ask = { answer: "answer-2", language: "de", revision: "", approver: "A & B", validUntil: "" };
    const url = new URL(paperUrl("e/1", "p?", "offer", "pdf", ask), "http://x");
    expect(url.pathname).toBe("/api/enquiries/e%2F1/papers/p%3F/offer");
    expect(Object.fromEntries(url.searchParams)).toEqual({
      format: "pdf",
      answer: "answer-2",
      language: "de",
      approver: "A & B",
    });
  });
});
