import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { latestWins } from "../../src/web/live/latest.ts";

/** Answers only when told to, so that a test decides what is on its way. */
function byHand() {
  const open: { ask: number; answer: () => void; fail: (line: string) => void }[] = [];
  const asked: number[] = [];
  const work = (ask: number) =>
    new Promise<number>((resolve, reject) => {
      asked.push(ask);
      open.push({ ask, answer: () => resolve(ask * 10), fail: (line) => reject(new Error(line)) });
    });
  return { open, asked, work };
}

const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

describe("latest wins", () => {
  it("skips what was asked between the first and the last, and ends on the last", async () => {
    const { open, asked, work } = byHand();
    const heard: number[] = [];
    const live = latestWins(
      work,
      (answer) => heard.push(answer),
      () => undefined,
    );
    for (const value of [1, 2, 3, 4]) live.ask(value);
    expect(asked).toEqual([1]);
    open[0]?.answer();
    await settled();
    expect(asked).toEqual([1, 4]);
    open[1]?.answer();
    await settled();
    expect(heard).toEqual([10, 40]);
  });

  it("goes on after a failure, and hears nothing once stopped", async () => {
    const { open, work } = byHand();
    const lines: string[] = [];
    const heard: number[] = [];
    const live = latestWins(
      work,
      (answer) => heard.push(answer),
      (error) => lines.push(error.message),
    );
    live.ask(1);
    live.ask(2);
    open[0]?.fail("no window");
    await settled();
    live.stop();
    open[1]?.answer();
    await settled();
    live.ask(3);
    expect(lines).toEqual(["no window"]);
    expect(heard).toEqual([]);
    expect(open).toHaveLength(2);
  });

  it("never has two questions on their way and always ends on the last one asked", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.nat(50), { minLength: 1, maxLength: 12 }), async (asks) => {
        let onTheirWay = 0;
        let most = 0;
        const heard: number[] = [];
        const live = latestWins(
          async (ask: number) => {
            most = Math.max(most, ++onTheirWay);
            await null;
            onTheirWay--;
            return ask;
          },
          (answer) => heard.push(answer),
          () => undefined,
        );
        for (const [i, ask] of asks.entries()) {
          live.ask(ask);
          if (i % 3 === 2) await null;
        }
        await settled();
        expect(most).toBe(1);
        expect(heard.at(-1)).toBe(asks.at(-1));
      }),
    );
  });
});
