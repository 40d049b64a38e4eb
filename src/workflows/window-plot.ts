import type { Posterior } from "#calibration";
import type { Ray } from "#edges";
import type { DriftSpread, LaserSetup, Setting, Trial, WindowMap } from "#terms";
import { choiceAt, rayTruth, truthDraws } from "#window";
import { runs } from "./candidates.ts";
import type { EdgeBook } from "./edge-book.ts";
import { axisValue } from "./two-edges.ts";

/** J/cm² in J/m²: the axis is read by people. */
const J_PER_CM2 = 1e4;
const POWER_STEPS = 21;
/** Speeds that are solved, and steps between two of them that are read between. */
const SPEEDS = 7;
const BETWEEN = 3;
/** Versions of the truth behind a map, and the share that a conservative window wants. */
export const MAP_DRAWS = 200;
export const CONSERVATIVE = 0.95;

/**
 * Chances over peak fluence (pulsed) or dose of one pass (continuous) and speed, all else as in the given setting, each
 * averaged over production drift; speeds between the solved ones are read between their edges.
 */
export function windowPlot(
  setup: LaserSetup,
  book: EdgeBook,
  posterior: Posterior,
  centre: Setting,
  drift: DriftSpread,
  trial: Trial,
  recommended: Setting | null,
): WindowMap {
  const place = (setting: Setting) => ({ x: axisValue(setup, setting) / J_PER_CM2, y: setting.speed });
  const points = trial.patches.flatMap((p) => (p.setting ? [{ patch: p.patch, ...place(p.setting) }] : []));
  const at = place(centre);
  const solved = speedsAround(
    setup,
    centre,
    points.map((p) => p.y),
  ).map((speed) => book.solve({ ...centre, speed }, false));
  const rows = solved.flatMap((ray, i) => {
    const next = solved[i + 1];
    if (next === undefined) return [ray];
    return Array.from({ length: BETWEEN }, (_, k) => (k === 0 ? ray : between(ray, next, k / BETWEEN)));
  });
  const values = [...points.map((p) => p.x), at.x];
  const from = Math.min(...values) / 1.5;
  const to = Math.max(...values) * 1.5;
  const x = Array.from({ length: POWER_STEPS }, (_, i) => from * (to / from) ** (i / (POWER_STEPS - 1)));
  const truths = truthDraws(posterior, MAP_DRAWS);
  const probabilityClean: number[] = [];
  const probabilityUndamaged: number[] = [];
  const conservative: boolean[] = [];
  for (const ray of rows) {
    const truth = rayTruth(truths, ray, drift);
    const full = axisValue(setup, ray.setting) / J_PER_CM2;
    for (const dose of x) {
      const c = choiceAt(truth, Math.log(dose / full), 0);
      probabilityClean.push(c.clean);
      probabilityUndamaged.push(c.undamaged);
      conservative.push(c.share >= CONSERVATIVE);
    }
  }
  return {
    xName: setup.kind === "pulsed" ? "peak fluence (J/cm²)" : "dose of one pass (J/cm²)",
    yName: "speed (m/s)",
    x,
    y: rows.map((r) => r.setting.speed),
    probabilityClean,
    probabilityUndamaged,
    conservative,
    points,
    recommendedAt: recommended ? place(recommended) : null,
  };
}

/** Speeds over those burned and a little more, that the set-up can run with the other values as they are. */
function speedsAround(setup: LaserSetup, centre: Setting, burned: readonly number[]): number[] {
  const all = [...burned, centre.speed];
  const low = Math.max(setup.speedMin, Math.min(...all) / 1.5);
  const high = Math.min(setup.speedMax, Math.max(...all) * 1.5);
  const ladder = Array.from({ length: SPEEDS }, (_, i) => low * (high / low) ** (i / (SPEEDS - 1)));
  return ladder
    .map((speed) => Math.round(speed * 1000) / 1000)
    .filter((speed, i, list) => list.indexOf(speed) === i && runs(setup, { ...centre, speed }));
}

/** A ray between two that differ in speed: edges and groups on straight lines in ln speed. */
function between(a: Ray, b: Ray, t: number): Ray {
  const mix = (p: number, q: number) => p + t * (q - p);
  const edge = (read: (r: Ray) => Float64Array) => read(a).map((v, j) => mix(v, read(b)[j]!));
  const groups = Object.fromEntries(
    Object.entries(a.groups).map(([k, v]) => [k, mix(v, b.groups[k as keyof Ray["groups"]])]),
  ) as unknown as Ray["groups"];
  return {
    ...a,
    setting: { ...a.setting, speed: a.setting.speed ** (1 - t) * b.setting.speed ** t },
    groups,
    half: edge((r) => r.half),
    clean: edge((r) => r.clean),
    melt: edge((r) => r.melt),
    damage: edge((r) => r.damage),
  };
}
