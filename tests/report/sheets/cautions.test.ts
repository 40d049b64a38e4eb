import { beamState, defaultSetting } from "#beam";
import { layerKinds, metals, setups } from "#library";
import { translateCaution } from "#report";
import { cautionsFor } from "#safety";
import { describe, expect, it } from "vitest";
import { cautionBox } from "../../../src/report/sheets/caution-box.ts";
import { cautionsDe } from "../../../src/report/sheets/cautions-de.ts";
import { speak } from "../../../src/report/sheets/paper-head.ts";
import { aidCaution } from "../../../src/report/wording.ts";

const german = speak("de");
const notice =
  "Übersetzung nicht von einem Laserschutzbeauftragten geprüft (translation not checked by a laser safety officer).";
const boxOf = (cautions: readonly string[], language: "en" | "de" = "de") => {
  const box = cautionBox(cautions, speak(language));
  if (box.kind !== "box") throw new Error("a box was expected");
  return box;
};

/** Every sentence that the library's set-ups, metals and layers give with every answer about bad substances. */
const every = new Set<string>([aidCaution]);
for (const setup of setups)
  for (const metal of [null, ...metals])
    for (const known of ["yes", "no", "unknown"] as const) {
      const beam = beamState(setup, defaultSetting(setup));
      const substances = { lead: known, chromate: known, cadmium: known, asbestos: known };
      for (const line of cautionsFor({ setup, beam, layers: layerKinds, metal, ...substances })) every.add(line);
    }

describe("cautions on a translated paper", () => {
  it("have a German sentence for everything that the library gives", () => {
    expect(every.size).toBeGreaterThan(20);
    const missing = [...every].filter((line) => translateCaution(line, "de").language !== "de");
    expect(missing, "add these whole sentences to cautions-de.ts").toEqual([]);
  });

  it("put the same wavelength and substance into the German sentence", () => {
    const eyewear =
      "Everyone in the laser area wears eyewear rated for 1075 nm at the level that the laser safety officer sets; other glasses do not protect.";
    expect(translateCaution(eyewear, "de").words).toContain("für 1075 nm");
    const lead = "Lead is said to be present: stop. This is work for a specialist under the local rules for it.";
    expect(translateCaution(lead, "de").words).toMatch(/^Blei soll vorhanden sein: anhalten\./);
    expect(translateCaution(lead, "en")).toEqual({ words: lead, language: "en", mark: "" });
  });

  it("keep the places of each sentence", () => {
    const places = (words: string): string[] => [...words.matchAll(/\{(\w+)\}/g)].map(([, p]) => p!).sort();
    for (const { en, de } of cautionsDe) expect([en, places(de)]).toEqual([en, places(en)]);
  });

  it("translate whole sentences only: one word off and it stays English, marked, in its place", () => {
    const odd = "Highly reflective: strong specular reflections travel very far.";
    const known = "Highly reflective: strong specular reflections travel far.";
    const { items, notices } = boxOf([odd, known]);
    expect(items[0]).toEqual({ words: odd, language: "en", mark: "[englisch, nicht übersetzt]" });
    expect(items[1]).toMatchObject({ words: "Stark spiegelnd: gerichtete Reflexe reichen weit.", language: "de" });
    for (const longer of [`${known} Mostly.`, `Note: ${known}`]) expect(boxOf([longer]).items[0]!.words).toBe(longer);
    expect(notices.map(({ words }) => words)).toEqual([notice]);
  });

  it("drop none, say none twice, and defer to local law where no line does", () => {
    const lines = ["Hot metal.", "Hot metal. ", "Sharp rims."];
    expect(boxOf(lines, "en").items.map(({ words }) => words)).toEqual(["Hot metal.", "Sharp rims.", aidCaution]);
    const whole = [...every].filter((line) => line !== aidCaution);
    expect(boxOf(whole).items).toHaveLength(whole.length);
    expect(boxOf(whole, "en").notices).toEqual([]);
  });

  it("are never missing", () => {
    expect(() => cautionBox([], german)).toThrow(
      "invalid cautions: 0 (at least one caution must go along with every paper)",
    );
    expect(() => cautionBox([" "], german)).toThrow("invalid caution: missing (must be text)");
  });
});
