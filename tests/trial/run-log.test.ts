import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { RunEntry, Trial } from "#terms";
import { mergeEntries, patchesToRun, patchRun, runProgress, standingEntries } from "#trial";

const base: RunEntry = {
  id: "",
  kind: "burned",
  patch: 1,
  coupon: null,
  at: "",
  by: "",
  note: "",
  plateTemperature: null,
  photo: null,
  of: null,
};
let count = 0;
const entry = (change: Partial<RunEntry>): RunEntry => {
  count += 1;
  return { ...base, id: `id-${count}`, at: `2026-11-25T10:${String(count % 60).padStart(2, "0")}:00.000Z`, ...change };
};
const run = (entries: readonly RunEntry[], patch = 1) => patchRun(standingEntries(entries), patch);

describe("what became of a patch", () => {
  it("is open, burned or skipped, and burned metal stays burned whoever skips it later", () => {
    expect(run([]).state).toBe("open");
    const burned = entry({});
    const skipped = entry({ kind: "skipped", note: "edge bent" });
    expect(run([burned]).state).toBe("burned");
    expect(run([skipped]).state).toBe("skipped");
    expect(run([burned, skipped])).toMatchObject({ state: "burned", tick: burned });
    expect(run([burned, skipped], 2).state).toBe("open");
  });

  it("counts two ticks of one burn once and a repeat as another", () => {
    expect(run([entry({}), entry({})]).repeats).toBe(0);
    expect(run([entry({}), entry({ kind: "repeated" }), entry({ kind: "repeated" })]).repeats).toBe(2);
    expect(run([entry({ kind: "repeated" })])).toMatchObject({ state: "burned", repeats: 0 });
  });

  it("goes back to what it was when a tick is taken back, whichever entry came first", () => {
    const skipped = entry({ kind: "skipped", note: "x" });
    const burned = entry({});
    const back = entry({ kind: "undo-of", of: burned.id, patch: 1, at: "2026-11-25T09:00:00.000Z" });
    expect(run([skipped, burned, back]).state).toBe("skipped");
    expect(run([back, burned]).state).toBe("open");
    expect(run([burned, back, entry({ kind: "undo-of", of: back.id })]).state).toBe("open");
  });
});

describe("lists of several phones", () => {
  it("make one log, in whatever order and however often they come", () => {
    const made = fc
      .uniqueArray(
        fc.record({
          id: fc.uuid(),
          at: fc.constantFrom("2026-11-25T10:00:00.000Z", "2026-11-25T10:00:01.000Z", "2026-11-25T10:00:02.000Z"),
        }),
        { selector: (e) => e.id, maxLength: 12 },
      )
      .chain((all) =>
        fc.record({
          all: fc.constant(all),
          shuffled: fc.shuffledSubarray(all, { minLength: all.length }),
          some: fc.shuffledSubarray(all),
        }),
      );
    fc.assert(
      fc.property(made, ({ all, shuffled, some }) => {
        const merged = mergeEntries(some, shuffled, some);
        expect(merged).toEqual(mergeEntries(all));
        expect(merged).toHaveLength(all.length);
        for (let i = 1; i < merged.length; i += 1) expect(merged[i]!.at >= merged[i - 1]!.at).toBe(true);
      }),
    );
  });
});

it("the run list leaves out what no setting is planned for, and counts what was done", () => {
  const patch = (n: number, runOrder: number, burned = true) => ({
    patch: n,
    runOrder,
    setting: burned ? ({} as never) : null,
  });
  const trial = { patches: [patch(1, 2), patch(2, 3), patch(3, 1), patch(4, 0, false)] } as unknown as Trial;
  expect(patchesToRun(trial).map((p) => p.patch)).toEqual([3, 1, 2]);
  const before = [entry({ patch: 3 }), entry({ patch: 4 })];
  const last = entry({ kind: "skipped", patch: 1, note: "x" });
  const after = entry({ kind: "note", patch: 2, note: "y" });
  expect(runProgress(trial, [...before, last, after])).toEqual({ burned: 1, skipped: 1, of: 3, last });
});
