import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { RunEntry, Setting, Trial } from "#terms";
import { KEPT_MARK as markRead } from "../../src/web/bench/kept-mark.ts";
import {
  filesOfPage,
  KEPT_MARK as markSet,
  nextGenerations,
  ruleOf,
  sameVersion,
} from "../../src/web/bench/keeper-rules.ts";
import { makeEntry, newId } from "../../src/web/bench/make-entry.ts";
import { runList, timeLeft, waitLeft } from "../../src/web/bench/run-view.ts";
import { burnedAgain, skippedPatches } from "../../src/web/bench/use-run-log.ts";

const setting = (power: number, speed: number): Setting => ({
  power,
  level: 1,
  duty: 1,
  frequency: 50e3,
  pulseWidth: 100e-9,
  speed,
  lineSpacing: 1e-4,
  passes: 1,
  defocus: 0,
  lens: "f160",
});
const settings = [setting(100, 1), setting(100, 2), setting(60, 2), setting(60, 2)];
const trial = {
  coupons: [],
  patches: settings.map((s, i) => ({ patch: 10 + i, runOrder: i + 1, setting: s, wait: i === 0 ? 0 : 30 })),
} as unknown as Trial;
const clock = (seconds: number): string => new Date(Date.UTC(2026, 10, 25, 10) + 1000 * seconds).toISOString();
const tick = (patch: number, seconds: number, kind: RunEntry["kind"] = "burned"): RunEntry => ({
  ...makeEntry("Ines", { kind, patch, note: kind === "skipped" ? "bent" : "" }),
  at: clock(seconds),
});
const changes = (entries: readonly RunEntry[], patch: number) =>
  runList(trial, entries)
    .lines.find((l) => l.patch.patch === patch)
    ?.changes?.map((c) => `${c.name} ${c.before} > ${c.value}`);

describe("what the operator changes", () => {
  it("names what is switched on and off: a beam that is modulated from one patch to the next, and no more", () => {
    const steady: Setting = { ...setting(100, 1), pulseWidth: null, frequency: null };
    const chopped: Setting = { ...steady, frequency: 2e3, duty: 0.5 };
    const patches = [steady, chopped, steady].map((s, i) => ({ ...trial.patches[i]!, setting: s }));
    const { lines } = runList({ ...trial, patches }, []);
    expect(lines.map((l) => l.changes?.map((c) => `${c.name} ${c.before} > ${c.value}`))).toEqual([
      undefined,
      ["modulation frequency off > 2 kHz", "duty 100 % > 50 %"],
      ["duty 50 % > 100 %", "modulation frequency 2 kHz > off"],
    ]);
  });

  it("is what differs from the patch before; at first all is set", () => {
    expect(runList(trial, []).lines[0]?.changes).toBeNull();
    expect(changes([], 11)).toEqual(["scan speed 1000 mm/s > 2000 mm/s"]);
    expect(changes([], 12)).toEqual(["power 100 W > 60 W"]);
    expect(changes([], 13)).toEqual([]);
  });

  it("leaves out what was skipped, and starts from what the machine stands at", () => {
    const skipped = [tick(10, 0), tick(11, 60, "skipped")];
    expect(runList(trial, skipped).current?.patch.patch).toBe(12);
    expect(changes(skipped, 12)).toEqual(["power 100 W > 60 W", "scan speed 1000 mm/s > 2000 mm/s"]);
    // burned out of order: the machine stands at the last one by the clock
    const outOfOrder = [tick(12, 0), tick(10, 30)];
    expect(changes(outOfOrder, 11)).toEqual(["scan speed 1000 mm/s > 2000 mm/s"]);
    expect(changes([...outOfOrder, tick(12, 60, "repeated")], 11)).toEqual(["power 60 W > 100 W"]);
    expect(skippedPatches(trial, skipped)).toEqual([11]);
    expect(burnedAgain(trial, [...skipped, tick(10, 90, "repeated")])).toEqual([10]);
  });

  it("ends when all is burned or skipped", () => {
    const all = [10, 11, 12, 13].map((p, i) => tick(p, i, i === 2 ? "skipped" : "burned"));
    expect(runList(trial, all).current).toBeNull();
  });
});

describe("the wait before a patch", () => {
  it("runs from the burn before and is never longer than planned, whatever the clocks say", () => {
    const patch = trial.patches[1]!;
    const last = tick(10, 0);
    const now = (seconds: number) => Date.parse(clock(seconds));
    expect(waitLeft(patch, null, now(5))).toBe(0);
    expect(waitLeft(trial.patches[0]!, last, now(5))).toBe(0);
    expect(waitLeft(patch, last, now(10))).toBe(20);
    expect(waitLeft(patch, last, now(31))).toBe(0);
    expect(waitLeft(patch, last, now(-600))).toBe(30);
    fc.assert(
      fc.property(fc.integer({ min: -1e6, max: 1e6 }), (s) => {
        const left = waitLeft(patch, last, now(s));
        expect(left >= 0 && left <= 30).toBe(true);
      }),
    );
  });
});

describe("the time that is left", () => {
  it("is waits and burns at first, then the pace, whose pauses do not count", () => {
    const burn = () => 5;
    expect(timeLeft(runList(trial, []), [], burn)).toEqual({ seconds: 3 * 30 + 4 * 5, by: "plan" });
    expect(timeLeft(runList(trial, []), [], () => null)).toEqual({ seconds: 90, by: "plan" });
    const long = {
      ...trial,
      patches: Array.from({ length: 12 }, (_, i) => ({ ...trial.patches[0]!, patch: i, runOrder: i })),
    };
    const done = [0, 60, 130, 200, 4000].map((at, i) => tick(i, at));
    const list = runList(long as Trial, done);
    expect(timeLeft(list, done, burn)).toEqual({ seconds: 7 * 70, by: "pace" });
    // never less than the waits and burns
    expect(timeLeft(list, done, () => 100)).toEqual({ seconds: 700, by: "pace" });
  });
});

describe("what a phone keeps for a lost network", () => {
  const origin = "https://bench.example:4173";
  it("is the page, its files and the list, and nothing that writes", () => {
    const rule = (path: string, method = "GET") =>
      ruleOf(method, path.startsWith("http") ? path : origin + path, origin);
    expect(rule("/")).toBe("page");
    expect(rule("/assets/index-1.js")).toBe("asset");
    expect(rule("/api/trials/a%20b")).toBe("answer");
    expect(rule("/api/trials/t/run-log")).toBe("answer");
    for (const path of [
      "/enter?word=x",
      "/api/photos/x",
      "/api/trials/t/gradings",
      "/api/trials",
      "/?x=1",
      "/bench-keeper.js",
    ])
      expect(rule(path), path).toBeNull();
    for (const method of ["POST", "PUT", "DELETE", "HEAD"]) expect(rule("/api/trials/t/run-log", method)).toBeNull();
    expect(rule("https://other.example/assets/a.js")).toBeNull();
  });

  it("is of one version, and of the one before for pages that are still open", () => {
    const html = (v: number) =>
      `<link rel="icon" href="./assets/mark.svg"><script type="module" crossorigin src="./assets/index-${v}.js"></script>`;
    expect(filesOfPage(html(1))).toEqual(["/assets/mark.svg", "/assets/index-1.js"]);
    expect(sameVersion(html(1), ["/assets/index-1.js", "/assets/bench-1.js"])).toBe(true);
    expect(sameVersion(html(2), ["/assets/index-1.js"])).toBe(false);
    let kept = nextGenerations({ now: [], before: [] }, html(1), ["/assets/index-1.js"]);
    kept = nextGenerations(kept, html(1), ["/assets/index-1.js", "/assets/late-1.js"]);
    expect(kept).toEqual({ now: ["/assets/index-1.js", "/assets/late-1.js"], before: [] });
    kept = nextGenerations(kept, html(2), ["/assets/index-2.js"]);
    expect(kept).toEqual({ now: ["/assets/index-2.js"], before: ["/assets/index-1.js", "/assets/late-1.js"] });
    expect(nextGenerations(kept, html(3), ["/assets/index-3.js"]).before).toEqual(["/assets/index-2.js"]);
  });

  it("is known by the same mark on both sides", () => expect(markRead).toBe(markSet));
});

it("an id is a uuid that no two entries share", () => {
  const ids = new Set(Array.from({ length: 500 }, newId));
  expect(ids.size).toBe(500);
  for (const id of ids) expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
});
