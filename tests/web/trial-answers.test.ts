import { readFileSync } from "node:fs";
import { parseEnquiry, parseOutcomesCsv, parseTrial } from "#contract";
import { createLibrary, setup } from "#library";
import { designNames } from "#trial";
import { createPartModel } from "#workflows";
import { describe, expect, it } from "vitest";
import { planAnswer, WindowDesk } from "../../src/web/live/trial-answers.ts";
import { words } from "../../src/web/words/index.ts";

const example = (name: string): string => readFileSync(new URL(`../../examples/${name}`, import.meta.url), "utf8");
const enquiry = parseEnquiry(JSON.parse(example("enquiry.json")), createLibrary([]));
const part = enquiry.parts[0]!;
const machine = setup("pulsed-500");
// few versions: rough, and enough to see what is asked of them
const model = createPartModel(part, { seed: 1, drawCount: 8 });
const ask = { trialId: "t", enquiryId: enquiry.id, site: enquiry.site, count: 24, seed: 3 };
const settingsOf = (trial: ReturnType<typeof planAnswer>) =>
  new Set(trial.patches.flatMap((p) => (p.setting ? [JSON.stringify(p.setting)] : [])));

describe("plans on the pages", () => {
  it("burn the settings that teach most where the physics guides, and say how many patches it may take", () => {
    const heard: string[] = [];
    const wanted = { ...ask, design: "physics-guided", rehearsals: 2, rays: 20, looks: 40 } as const;
    const trial = planAnswer(model, machine, wanted, (done, of) => heard.push(`${done} of ${of}`));
    expect(heard.at(-1)).toBe("20 of 20");
    expect(trial.design).toBe("physics-guided");
    expect(trial.patches).toHaveLength(24);
    // said only where the settings came from the physics' own list
    expect(trial.reasons[1]).toMatch(/^The settings that teach most by the physics, in that order/);
    // 24 patches less 2 references and 3 repeats
    expect(settingsOf(trial).size).toBe(19);
    expect(trial.reasons.join(" ")).toContain("Rehearsed 2 times");
  }, 60_000);

  it.each(designNames.filter((d) => d !== "physics-guided"))("follow the design %s", (design) => {
    const trial = planAnswer(model, machine, { ...ask, design, count: 64 });
    expect(trial.design).toBe(design);
    expect(trial.patches).toHaveLength(64);
    expect(trial.reasons[0]).toContain(`by the design ${design}`);
  });

  it("say in one line why a design does not fit", () => {
    expect(() => planAnswer(model, machine, { ...ask, design: "central-composite", count: 6 })).toThrow(/^invalid /);
  });

  it("are offered in plain words, the usual one first", () => {
    expect(Object.keys(words.trial.designs)).toEqual([...designNames]);
    expect(designNames[0]).toBe("physics-guided");
    const said = designNames.map((d) => words.trial.designs[d]);
    expect(new Set(said).size).toBe(designNames.length);
    for (const name of designNames) expect(words.trial.designMeaning[name]).toMatch(/^[A-Z].{30,}\.$/);
  });
});

describe("windows on the pages", () => {
  const whole = parseTrial(JSON.parse(example("hatch-covers.pulsed.trial.json")));
  const burned = whole.patches.filter((p) => p.setting !== null).slice(0, 8);
  const trial = { ...whole, patches: burned };
  const { accepted } = parseOutcomesCsv(example("hatch-covers.pulsed.outcomes.csv"), whole);
  const outcomes = accepted.filter((o) => burned.some((p) => p.patch === o.patch));
  const few = { trial, outcomes, confidence: 0.8 };

  it("solve a trial once, with progress, and answer the next questions from what was solved", () => {
    const desk = new WindowDesk(0);
    const heard: [number, number][] = [];
    const hear = (done: number, of: number) => void heard.push([done, of]);
    const first = desk.answer(model, machine, few, hear);
    expect(first.versions).toBe(16);
    expect(heard[0]![0]).toBe(1);
    expect(heard.at(-1)![0]).toBe(heard.at(-1)![1]);
    const { window } = first;
    expect(window.diagnostics.patches).toBe(8);
    expect(window.learnt.pinned).toHaveLength(3);
    expect(window.map!.conservative).toHaveLength(window.map!.x.length * window.map!.y.length);

    const count = heard.length;
    const again = desk.answer(model, machine, few, hear);
    expect(heard).toHaveLength(count);
    expect(again.window).toEqual(window);
    // surer asks for no faster a setting
    const sure = desk.answer(model, machine, { ...few, confidence: 0.95 }, hear).window;
    expect(heard).toHaveLength(count);
    expect(sure.recommended?.areaRate ?? 0).toBeLessThanOrEqual(window.recommended?.areaRate ?? 0);
    const fewer = desk.answer(model, machine, { ...few, outcomes: outcomes.slice(0, 5) }, hear).window;
    expect(heard).toHaveLength(count);
    expect(fewer.diagnostics.patches).toBe(5);
    expect(fewer.stop.verdict).toBe("go on");
    // graders who are often wrong make everything less sure, without solving anew
    const doubted = desk.answer(model, machine, { ...few, lapse: 0.4 }, hear).window;
    expect(heard).toHaveLength(count);
    expect(doubted.diagnostics.brierClean).not.toBe(window.diagnostics.brierClean);

    desk.forget();
    expect(() =>
      desk.answer(model, machine, few, () => {
        throw new Error("solved anew");
      }),
    ).toThrow("solved anew");
  }, 120_000);
});
