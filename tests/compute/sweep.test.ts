import { afterEach, describe, expect, it } from "vitest";
import { answerOnThreads, openSweep, type Sweep, SweepCancelled } from "#compute";
import { parseEnquiry } from "#contract";
import { createLibrary } from "#library";
import { InvalidInput } from "#units";
import { answerEnquiry, axisOver, createPartModel, type PartTask, rankVerdicts, surveySetups } from "#workflows";
import { defaultSetting } from "#beam";

const library = createLibrary([]);
const enquiry = parseEnquiry(
  {
    parts: [
      {
        name: "A",
        material: "steel-low-carbon",
        thickness_mm: 5,
        area_m2: 1,
        layers: [{ kind: "red-rust", thickness_um: 20 }],
      },
      {
        name: "B",
        material: "aluminium-5083",
        thickness_mm: 5,
        area_m2: 1,
        layers: [{ kind: "alkyd", thickness_um: 40 }],
      },
      { name: "C", material: "stone" },
    ],
  },
  library,
);
const setups = [library.setup("pulsed-500"), library.setup("continuous-1000")];
const work = { parts: enquiry.parts, seed: 5, drawCount: 8 };
const surveys: PartTask[] = [0, 1].flatMap((part) =>
  setups.map((setup): PartTask => ({ kind: "survey", part, setup, site: enquiry.site, powerMax: null })),
);
const open: Sweep[] = [];
const sweepOn = (threads: number) => {
  const sweep = openSweep(work, { threads });
  open.push(sweep);
  return sweep;
};
afterEach(async () => {
  for (const sweep of open.splice(0)) await sweep.close();
});

describe("a sweep on threads", () => {
  it("gives the numbers of the caller's own thread, bit for bit, in the order of the tasks", async () => {
    const odds: PartTask[] = Array.from({ length: 6 }, (_, i) => {
      const setting = defaultSetting(setups[0]);
      return { kind: "odds", part: 0, setup: setups[0], settings: [{ ...setting, speed: setting.speed / (i + 1) }] };
    });
    const spec = {
      setting: defaultSetting(setups[0]),
      x: axisOver(setups[0], defaultSetting(setups[0]), "frequency", 9),
      y: axisOver(setups[0], defaultSetting(setups[0]), "speed", 12),
    };
    const bands: PartTask[] = [0, 1].map((band) => ({ kind: "band", part: 1, setup: setups[0], spec, band }));
    const tasks = [surveys[0], ...odds, ...bands];
    const seen: number[] = [];
    const onThreads = await sweepOn(2).run(tasks, { onProgress: (done, of) => seen.push(done / of) });
    expect(onThreads).toStrictEqual(await sweepOn(1).run(tasks));
    expect(seen).toHaveLength(tasks.length);
    expect(seen.at(-1)).toBe(1);
  });

  it("works a whole enquiry, declined parts included, to the same answer", async () => {
    const options = { seed: 5, drawCount: 8, setups, trials: [] };
    const words: string[] = [];
    const twoParts = { ...enquiry, parts: [enquiry.parts[0], enquiry.parts[2]] };
    const made = await answerOnThreads(twoParts, options, { threads: 2, onProgress: (line) => words.push(line) });
    expect(made).toStrictEqual(answerEnquiry(twoParts, options));
    expect(made.parts.map((p) => p.verdicts.length)).toEqual([2, 0]);
    expect(words).toContainEqual(expect.stringMatching(/^\d of 2: A, /));
  });

  it("stops within a moment when cancelled, and the sweep can be used again", async () => {
    const sweep = sweepOn(2);
    const stop = new AbortController();
    const running = sweep.run([...surveys, ...surveys], {
      signal: stop.signal,
      onProgress: () => stop.abort(),
    });
    await expect(running).rejects.toBeInstanceOf(SweepCancelled);
    await expect(sweep.run(surveys, { signal: stop.signal })).rejects.toThrow("cancelled");
    const setting = defaultSetting(setups[0]);
    expect(await sweep.run([{ kind: "odds", part: 0, setup: setups[0], settings: [setting] }])).toHaveLength(1);
  });

  it("hears a cancel between two tasks on the caller's own thread", async () => {
    const stop = new AbortController();
    let done = 0;
    const running = sweepOn(0).run(surveys, {
      signal: stop.signal,
      onProgress: (n) => {
        done = n;
        stop.abort();
      },
    });
    await expect(running).rejects.toBeInstanceOf(SweepCancelled);
    expect(done).toBe(1);
  });

  it.each([1, 2])("hands a refusal on as a refusal (%i threads)", async (threads) => {
    const setting = { ...defaultSetting(setups[0]), passes: 0.5 };
    const running = sweepOn(threads).run([{ kind: "odds", part: 0, setup: setups[0], settings: [setting] }]);
    await expect(running).rejects.toBeInstanceOf(InvalidInput);
    await expect(running).rejects.toThrow(/^invalid passes: 0.5 \(/);
  });
});

describe("the order of the verdicts", () => {
  it("is that of a survey on one thread", () => {
    const model = createPartModel(enquiry.parts[0], { seed: 5, drawCount: 8 });
    const verdicts = surveySetups(model, setups, enquiry.site);
    const inLibraryOrder = setups.map((s) => verdicts.find((v) => v.setupId === s.id) as (typeof verdicts)[number]);
    expect(rankVerdicts(inLibraryOrder).map((v) => v.setupId)).toEqual(verdicts.map((v) => v.setupId));
  });
});
