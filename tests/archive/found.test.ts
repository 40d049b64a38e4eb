import { describe, expect, it } from "vitest";
import { keptWindows } from "#archive";
import type { KeptWindow, StoreReader } from "#store";

const setting = { power_W: 500, level: 0.8, frequency_kHz: 60, pulseWidth_ns: 100 } as never;
const good = (trial: string, proven: boolean): KeptWindow => ({ trial, recommended: { setting, proven } });
const none = (trial: string): KeptWindow => ({ trial, recommended: null });

function readerOf(kept: readonly (readonly [id: string, shape: string, windows: readonly KeptWindow[]])[]) {
  const reads: string[] = [];
  const reader = {
    answers: async () => kept.map(([id, shape]) => ({ id, shape })),
    windowsIn: async (id: string) => {
      reads.push(id);
      return kept.find((k) => k[0] === id)![2];
    },
  } as unknown as StoreReader;
  return { reader, reads };
}

const older = [
  ["answer-4", "triage", []],
  ["answer-3", "window", [good("b", true)]],
  ["answer-2", "answer", [good("a", false), none("b")]],
  ["answer-1", "answer", [good("c", true)]],
] as const;

describe("what a kept trial found", () => {
  it("is in the newest window of each trial, and every answer is read once", async () => {
    const windows = keptWindows();
    const { reader, reads } = readerOf(older);
    const found = await windows(reader, "e");
    expect([...found].map(([id, w]) => [id, w.recommended?.proven])).toEqual([
      ["b", true],
      ["a", false],
    ]);
    await windows(reader, "e");
    expect(reads).toEqual(["answer-3", "answer-2"]);
  });

  it("is looked for again when there is a newer answer", async () => {
    const windows = keptWindows();
    await windows(readerOf(older).reader, "e");
    const { reader, reads } = readerOf([["answer-5", "window", [none("b")]], ...older]);
    expect((await windows(reader, "e")).get("b")).toEqual(none("b"));
    expect(reads).toEqual(["answer-5", "answer-3", "answer-2"]);
  });
});
