import { languages, requireLanguage } from "#report";
import { describe, expect, it } from "vitest";
import { fill, wordsOf } from "../../../src/report/sheets/words.ts";

/** "procedure.checksBefore.2" and its words, for every sentence of a catalogue. */
function leaves(node: unknown, path = ""): [string, string][] {
  if (typeof node === "string") return [[path, node]];
  return Object.entries(node as object).flatMap(([key, value]) => leaves(value, `${path}.${key}`));
}
const places = (words: string): string[] => [...words.matchAll(/\{\w+\}/g)].map(([place]) => place).sort();

const english = leaves(wordsOf("en"));
const german = new Map(leaves(wordsOf("de")));

describe("words of the papers", () => {
  it("have the same keys in both languages, lists of one length included", () => {
    expect(english.length).toBeGreaterThan(200);
    expect([...german.keys()].sort()).toEqual(english.map(([key]) => key).sort());
  });

  it("have the same places for values in both languages", () => {
    for (const [key, words] of english) expect([key, places(german.get(key)!)]).toEqual([key, places(words)]);
  });

  it("are not English in the German catalogue, but for words that both share", () => {
    const shared = new Set(["Name", "Option", "Revision", "Scanner", "Radius", "Material"].map((w) => w.toLowerCase()));
    const same = english.filter(
      ([key, words]) => /\p{L}/u.test(words.replace(/\{\w+\}/g, "")) && german.get(key) === words,
    );
    expect(same.filter(([, words]) => !shared.has(words.toLowerCase()))).toEqual([]);
  });

  it("call nothing safe", () => {
    for (const words of [...english.map(([, w]) => w), ...german.values()]) {
      expect(words).not.toMatch(/\b(un)?safe(ly)?\b/i);
      expect(words).not.toMatch(/\b(un)?(sicher|gefahrlos|unbedenklich)(e[rsnm]?)?\b/i);
    }
  });

  it("fill every place or say which is missing", () => {
    expect(fill("{a} of {b}", { a: 1, b: "two" })).toBe("1 of two");
    expect(() => fill("{a} of {b}", { a: 1 })).toThrow("invalid words: b (a place in a sentence has no value)");
  });

  it("come in the languages that the font can print", () => {
    expect(languages).toEqual(["en", "de"]);
    expect(() => requireLanguage("zh")).toThrow(
      "invalid language: zh (must be en or de; the font of the papers has no Chinese letters)",
    );
  });
});
