import { buildProcedureSheet, choose, footingOf } from "#report";
import { describe, expect, it } from "vitest";
import { answer } from "../fixture.ts";
import { continuousSetting, continuousSetup, procedureInput, setting } from "./fixture.ts";
import { blockOf, factsOf } from "./sheet-text.ts";

const sheet = buildProcedureSheet(procedureInput);
const unproven = { footing: { kind: "predicted" } } as const;

describe("procedure sheet", () => {
  it("shows the setting in the units of the panel, to the last digit", () => {
    const odd = { ...setting, lineSpacing: 1.155e-4, speed: 7.6501, frequency: 66.725e3 };
    expect(factsOf(buildProcedureSheet({ ...procedureInput, setting: odd }), "setting")).toEqual([
      "power: 200 W",
      "level: 90 %",
      "frequency: 66.725 kHz",
      "pulse width: 100 ns",
      "speed: 7650.1 mm/s",
      "spacing: 0.1155 mm",
      "passes: 2",
      "defocus: 0 mm",
      "lens: f254",
    ]);
  });

  it("shows duty and defocus of a continuous beam, and no pulse width; with decimal commas in German", () => {
    const continuous = {
      ...procedureInput,
      setup: continuousSetup,
      setting: continuousSetting,
      delivery: "hand",
    } as const;
    expect(factsOf(buildProcedureSheet(continuous, "de"), "setting")).toEqual([
      "Leistung: 1500 W",
      "Leistungsstufe: 100 %",
      "Tastgrad: 50 %",
      "Frequenz: 5 kHz",
      "Geschwindigkeit: 7500 mm/s",
      "Linienabstand: 0,106 mm",
      "Überfahrten: 1",
      "Defokus: 2 mm",
      "Objektiv: f254",
    ]);
    expect(factsOf(buildProcedureSheet(continuous), "focus")).toContain(
      "focus: 2 mm from best focus, sign as the set-up counts it",
    );
  });

  it("marks what is not proven as for trial only, wherever a reader begins", () => {
    const predicted = buildProcedureSheet({ ...procedureInput, ...unproven });
    expect(blockOf(predicted, "footing", "banner")).toMatchObject({
      words: "Not proven: for trial only",
      detail: "Predicted only: never burned on this part or its coupons. Not for production.",
      tone: "warn",
    });
    expect(predicted.marks).toContain("Not proven: for trial only");
    expect(predicted.footer).toContain("Not proven: for trial only");
    const tried = { kind: "tried", trialId: "T-1", repeats: { burned: 2, good: 1 } } as const;
    const banner = blockOf(buildProcedureSheet({ ...procedureInput, footing: tried }), "footing", "banner");
    expect(banner.words).toBe("Not proven: for trial only");
    expect(banner.detail).toContain("Burned 2 times with this very setting, 1 clean and undamaged (trial T-1)");
    expect(sheet.marks).toEqual(["Invented example"]);
    expect(blockOf(sheet, "footing", "banner").words).toBe("Proven on coupons");
  });

  it("does not take the word for proven: the repeats must show it", () => {
    const claim = (burned: number, good: number) => () =>
      buildProcedureSheet({
        ...procedureInput,
        footing: { kind: "proven", trialId: "T-1", repeats: { burned, good } },
      });
    expect(claim(2, 2)).toThrow("invalid proven setting: 2 of 2 repeats good (at least 3, and all good)");
    expect(claim(5, 4)).toThrow("invalid proven setting: 4 of 5 repeats good (at least 3, and all good)");
    expect(claim(2, 3)).toThrow("invalid good repeats: 3");
    expect(claim(3, 3)).not.toThrow();
  });

  it("takes the footing from what a report recommends", () => {
    const [proven, predicted, declined] = answer.parts.map(choose);
    expect(footingOf(proven!)).toEqual({ kind: "proven", trialId: "T-014", repeats: { burned: 5, good: 5 } });
    expect(footingOf(predicted!)).toEqual({ kind: "predicted" });
    expect(() => footingOf(declined!)).toThrow("nothing is recommended that could be worked from");
  });

  it("takes accept and reject limits from the acceptance", () => {
    const accept = blockOf(sheet, "accept", "list").items.join("\n");
    for (const line of ["at most 2 % of the area", "at most 1, discoloured", "never above 150 °C", "at least 5 MPa"])
      expect(accept).toContain(line);
    expect(blockOf(sheet, "reject", "list").items).toContain("metal was above 150 °C");
    expect(blockOf(sheet, "stop", "box").items.map(({ words }) => words)).toContain("The metal reads above 150 °C");
    const { acceptance } = procedureInput.part;
    const loose = { ...acceptance, metalTemperatureMax: null, metalConditionMax: 4, tests: [] } as const;
    const free = buildProcedureSheet({ ...procedureInput, part: { ...procedureInput.part, acceptance: loose } });
    const all = [...blockOf(free, "accept", "list").items, ...blockOf(free, "reject", "list").items].join("\n");
    expect(all).toContain("no further test was asked for");
    expect(all).not.toMatch(/°C|above 4/);
  });

  it("names every stop: colour, smoke, flame, unknown layer, alarm, people", () => {
    const stops = blockOf(sheet, "stop", "box").items.map(({ words }) => words);
    for (const word of ["colour", "hood", "flame", "not named on this sheet", "alarm", "without eyewear"])
      expect(stops.filter((line) => line.includes(word))).toHaveLength(1);
    const further = buildProcedureSheet({ ...procedureInput, furtherStops: ["Water runs out"] });
    expect(blockOf(further, "stop", "box").items.map(({ words }) => words)).toEqual([...stops, "Water runs out"]);
  });

  it("forbids the start where eyewear or breathing protection was not stated", () => {
    const bare = buildProcedureSheet({ ...procedureInput, eyewear: null, respiratory: " ", standOff: null });
    const missing = "NOT STATED: do not start before the laser safety officer has set it";
    expect(factsOf(bare, "ppe").slice(0, 2)).toEqual([`eyewear marking: ${missing}`, `breathing: ${missing}`]);
    expect(factsOf(bare, "focus")[0]).toBe("stand-off, head: ____");
    expect(factsOf(sheet, "focus")[0]).toBe("stand-off, head: 172 mm");
  });

  it("states how far the height may be off in focus: 5 % of fluence, z = z_R·√(0.05/0.95)", () => {
    const rayleigh = procedureInput.setup.lenses.find(({ id }) => id === "f254")!.rayleighLength;
    const depth = (1e3 * rayleigh * Math.sqrt(1 / 19)).toPrecision(2);
    expect(factsOf(sheet, "focus")[1]).toBe(
      `focus: in best focus; keep the height within ±${depth} mm (5 % of fluence)`,
    );
  });

  it("leaves a line for the approver, or prints the name", () => {
    const signs = (approver: string | null) =>
      blockOf(buildProcedureSheet({ ...procedureInput, approver }), "signatures", "signs").rows[2]!.value;
    expect(signs(null)).toEqual({ kind: "blank", unit: "" });
    expect(signs("I. Invented")).toEqual({ kind: "text", words: "I. Invented" });
    expect(sheet.head.find(({ name }) => name === "approved by")!.value.kind).toBe("blank");
  });

  it("refuses in one line what cannot be worked from", () => {
    const build = (change: object) => () => buildProcedureSheet({ ...procedureInput, ...change });
    expect(build({ setting: { ...setting, power: 900 } })).toThrow(/^invalid power: 900 W \(/);
    expect(build({ setup: { ...procedureInput.setup, deliveries: ["scanner"] }, delivery: "hand" })).toThrow(
      "invalid delivery: hand (pulsed-200 is made for scanner)",
    );
    expect(build({ standOff: -1 })).toThrow("invalid stand-off: -1 m (must be above 0)");
    expect(build({ documentId: "" })).toThrow("invalid document id: missing (must be text)");
    expect(build({ cautions: [] })).toThrow("at least one caution");
    expect(() => buildProcedureSheet(procedureInput, "zh" as "en")).toThrow("invalid language: zh");
  });
});
