import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkSetting, completeSetting, roundToMachine } from "#beam";
import { setup, setups } from "#library";
import { fitted, moveWith } from "../../src/web/steps/setting/linked.ts";
import { settingOf, settingWord } from "../../src/web/steps/setting/setting-link.ts";
import { changed, redone, startOf, TOGETHER, undone } from "../../src/web/undo/timeline.ts";

const laser = fc.constantFrom(...setups);
const share = fc.double({ min: 0, max: 1, noNaN: true });

describe("settings in links", () => {
  it("come back as they were, for every set-up of the library", () => {
    fc.assert(
      fc.property(laser, share, share, share, (one, a, b, c) => {
        const middle = completeSetting(one, {});
        const setting = roundToMachine(one, {
          ...middle,
          speed: one.speedMin * (one.speedMax / one.speedMin) ** a,
          power: one.ratedPower * (0.1 + 0.9 * b),
          defocus: one.defocusMax * (2 * c - 1),
        });
        const back = settingOf(settingWord(setting), one);
        expect(back).not.toBeNull();
        for (const [key, value] of Object.entries(setting)) {
          const found = back![key as keyof typeof setting];
          if (typeof value === "number") expect(found).toBeCloseTo(value, 9);
          else expect(found).toBe(value);
        }
      }),
    );
  });

  it("that no machine can run, or that mean nothing, are no settings", () => {
    const one = setup("pulsed-100");
    const word = settingWord(completeSetting(one, {}));
    expect(settingOf(word, one)).not.toBeNull();
    expect(settingOf(word.replace("~1~1~", "~1~2~"), one)).toBeNull();
    expect(settingOf("", one)).toBeNull();
    expect(settingOf(word.replace(/^\d+/, "NaN"), one)).toBeNull();
    fc.assert(fc.property(fc.string(), (text) => void settingOf(text, one)));
  });
});

describe("linked controls", () => {
  it("leave the second laser inside its limits, whatever the first is set to", () => {
    fc.assert(
      fc.property(laser, laser, share, share, (first, second, a, b) => {
        const before = completeSetting(first, {});
        const after = fitted(first, {
          ...before,
          speed: first.speedMin * (first.speedMax / first.speedMin) ** a,
          power: first.ratedPower * b,
          level: 0.02 + 0.98 * b,
          passes: 1 + Math.round(8 * a),
        });
        const moved = moveWith(first, before, after, second, completeSetting(second, {}));
        expect(() => checkSetting(second, moved)).not.toThrow();
        if (after.speed !== before.speed && after.speed >= second.speedMin && after.speed <= second.speedMax)
          expect(moved.speed).toBe(after.speed);
      }),
    );
  });

  it("take power as a share of what each can give, and move nothing that was not moved", () => {
    const [first, second] = [setup("pulsed-100"), setup("continuous-1000")];
    const before = completeSetting(first, { power: 100 });
    const other = completeSetting(second, {});
    expect(moveWith(first, before, before, second, other)).toBe(other);
    const moved = moveWith(first, before, { ...before, power: 40 }, second, other);
    expect(moved.level).toBeCloseTo(0.4, 12);
    expect(moved.speed).toBe(other.speed);
    const strong = setup("pulsed-500");
    const wide = completeSetting(strong, {});
    expect(moveWith(first, before, { ...before, power: 40 }, strong, wide).power).toBeCloseTo(200, 9);
  });
});

describe("a timeline", () => {
  it("takes a drag of one control as one step, and another control as the next", () => {
    let line = startOf(0);
    for (let i = 1; i <= 5; i++) line = changed(line, i, "speed", i * 100);
    line = changed(line, 6, "power", 600);
    line = changed(line, 7, "power", 600 + 2 * TOGETHER);
    expect(undone(line).now).toBe(6);
    expect(undone(undone(line)).now).toBe(5);
    expect(undone(undone(undone(line))).now).toBe(0);
    expect(redone(undone(line)).now).toBe(7);
  });

  it("comes back to where it was after any undos and as many redos", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.integer(), fc.constantFrom("a", "b"), fc.nat(2000))), fc.nat(20), (steps, n) => {
        let line = startOf(0);
        let at = 0;
        for (const [value, cause, wait] of steps) {
          at += wait;
          line = changed(line, value, cause, at);
        }
        const end = line.now;
        const most = line.past.length;
        for (let i = 0; i < n; i++) line = undone(line);
        for (let i = 0; i < Math.min(n, most); i++) line = redone(line);
        expect(line.now).toBe(end);
      }),
    );
  });
});
