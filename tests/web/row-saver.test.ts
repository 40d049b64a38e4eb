import { describe, expect, it } from "vitest";
import { rowSaver } from "../../src/web/steps/results/row-saver.ts";
import { emptyOutcome } from "../../src/web/api/trials.ts";
import type { Outcome } from "#terms";

/** A page whose outcomes are read again only after the server answered, as over a slow line. */
function slowPage() {
  const kept: Outcome[] = [];
  const answers: (() => void)[] = [];
  const saver = rowSaver(
    (patch) => emptyOutcome("trial", patch),
    (outcome) =>
      new Promise((resolve) => {
        answers.push(() => {
          kept.push(outcome);
          resolve(outcome.residueFraction !== null && outcome.residueFraction > 1 ? "too much" : null);
        });
      }),
  );
  const answer = async () => {
    await Promise.resolve();
    await Promise.resolve();
    answers.shift()?.();
    await new Promise((done) => setTimeout(done));
  };
  return { kept, saver, answer };
}

describe("rows of outcomes typed faster than they are saved", () => {
  it("an entry keeps what the entry before it said", async () => {
    const { kept, saver, answer } = slowPage();
    const both = [
      saver.save(7, (o) => ({ ...o, metalCondition: 1 })),
      saver.save(7, (o) => ({ ...o, residueFraction: 0.02 })),
    ];
    await answer();
    await answer();
    expect(await Promise.all(both)).toEqual([null, null]);
    expect(kept.at(-1)).toMatchObject({ patch: 7, metalCondition: 1, residueFraction: 0.02 });
  });

  it("a refused entry is no ground for the next", async () => {
    const { kept, saver, answer } = slowPage();
    const first = saver.save(7, (o) => ({ ...o, residueFraction: 3 }));
    await answer();
    expect(await first).toBe("too much");
    const second = saver.save(7, (o) => ({ ...o, metalCondition: 0 }));
    await answer();
    expect(await second).toBe(null);
    expect(kept.at(-1)?.residueFraction).toBe(null);
  });

  it("what changes nothing is not sent", async () => {
    const { kept, saver } = slowPage();
    expect(await saver.save(7, (o) => ({ ...o }))).toBe(null);
    expect(kept).toEqual([]);
  });
});
