import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { beamState } from "#beam";
import { parseEnquiry, parseOutcomesCsv, parseTrial } from "#contract";
import { createLibrary } from "#library";
import type { LaserSetup, Setting, Trial } from "#terms";
import { chanceAt, rayTruth, truthDraws, productionDrift } from "#window";
import { controlPlot, createPartModel, type Evaluation, evaluateTrial } from "#workflows";

const example = (name: string) => readFileSync(new URL(`../../examples/${name}`, import.meta.url), "utf8");
const library = createLibrary([]);
const setup: LaserSetup = library.setup("pulsed-500");
let trial: Trial;
let found: Evaluation;
let centre: Setting;

beforeAll(() => {
  const whole = parseTrial(JSON.parse(example("hatch-covers.pulsed.trial.json")));
  const burned = whole.patches.filter((p) => p.setting !== null).slice(0, 8);
  trial = { ...whole, patches: burned.map((p) => ({ ...p, replicateOf: null })) };
  const part = parseEnquiry(JSON.parse(example("enquiry.json")), library).parts[0]!;
  const model = createPartModel(part, { seed: 1, drawCount: 16 });
  const { accepted } = parseOutcomesCsv(example("hatch-covers.pulsed.outcomes.csv"), trial, part.acceptance.tests);
  found = evaluateTrial(model, setup, trial, accepted, {
    seed: 1,
    draws: 16,
    rays: 0,
    map: { x: "level", y: "passes" },
  });
  centre = burned[0]!.setting!;
}, 60_000);

const plot = (x: "level" | "pulseWidth", y: "passes" | "lineSpacing") =>
  controlPlot(setup, found.book, found.posterior, centre, { x, y, drift: productionDrift, trial, recommended: centre });

describe("a map over two controls", () => {
  it("has the chances of the book: at one place those of chanceAt, averaged over the versions", () => {
    const map = plot("level", "passes");
    const [column, row] = [13, 1];
    const setting = { ...centre, level: map.x[column]!, passes: map.y[row]! };
    const ray = found.book.solve(setting);
    const truth = rayTruth(truthDraws(found.posterior, 200), ray, productionDrift);
    const x = Math.log(beamState(setup, setting).meanPower / beamState(setup, ray.setting).meanPower);
    const one = { clean: 0, undamaged: 0, both: 0 };
    const sum = { clean: 0, undamaged: 0 };
    for (let s = 0; s < 200; s++) {
      chanceAt(truth, x, s, one);
      sum.clean += one.clean;
      sum.undamaged += one.undamaged;
    }
    const at = row * map.x.length + column;
    expect(map.probabilityClean[at]).toBeCloseTo(sum.clean / 200, 9);
    expect(map.probabilityUndamaged[at]).toBeCloseTo(sum.undamaged / 200, 9);
  });

  it("names its axes with their units and places patches and recommendation on them", () => {
    const map = plot("level", "lineSpacing");
    expect([map.xName, map.yName]).toEqual(["level", "line spacing (mm)"]);
    const first = trial.patches[0]!;
    expect(map.points![0]).toEqual({
      patch: first.patch,
      x: first.setting!.level,
      y: expect.closeTo(first.setting!.lineSpacing * 1000, 9),
    });
    expect(map.recommendedAt).toEqual({
      x: centre.level,
      y: expect.closeTo(centre.lineSpacing * 1000, 9),
    });
    for (const { x, y } of map.points!) {
      expect(x).toBeGreaterThan(map.x[0]!);
      expect(x).toBeLessThanOrEqual(map.x.at(-1)!);
      expect(y).toBeLessThan(map.y.at(-1)!);
    }
  });

  it("rises in chance of clean and falls in chance of undamaged with power and with passes", () => {
    const map = found.result.map!;
    expect([map.xName, map.yName, map.x.length]).toEqual(["level", "passes", 21]);
    map.y.forEach((_, row) => {
      for (let column = 1; column < map.x.length; column++) {
        const at = row * map.x.length + column;
        if (map.beyond![at] || map.beyond![at - 1]) continue;
        expect(map.probabilityClean[at]!).toBeGreaterThanOrEqual(map.probabilityClean[at - 1]! - 0.02);
        expect(map.probabilityUndamaged[at]!).toBeLessThanOrEqual(map.probabilityUndamaged[at - 1]! + 0.02);
      }
    });
  });

  it("marks what the machine cannot be set to, with no chance there, and refuses what it does not have", () => {
    const map = plot("pulseWidth", "passes");
    expect(map.x.map(Math.round)).toEqual([30, 60, 100, 240]);
    map.beyond!.forEach((out, at) => {
      if (out)
        expect([map.probabilityClean[at], map.probabilityUndamaged[at], map.conservative![at]]).toEqual([0, 0, false]);
      else expect(map.probabilityClean[at]! + map.probabilityUndamaged[at]!).toBeGreaterThan(0);
    });
    const same = { x: "passes", y: "passes", drift: productionDrift, trial, recommended: null } as const;
    expect(() => controlPlot(setup, found.book, found.posterior, centre, same)).toThrow(
      "invalid axis of the map: passes (must differ from the other axis)",
    );
    const continuous = { ...centre, pulseWidth: null };
    expect(() => controlPlot(setup, found.book, found.posterior, continuous, { ...same, x: "pulseWidth" })).toThrow(
      /^invalid pulse width: .* has none that could vary/,
    );
  });
});
