import { beamState, checkSetting, roundToMachine } from "#beam";
import { chooseRays, edgesOf, type Ray, type RayLook, type RaySource, solveRay } from "#edges";
import { createRandom } from "#numerics";
import type { LaserSetup, Setting } from "#terms";
import { candidateSettings, neighbour, runs } from "./candidates.ts";
import type { PartModel } from "./part-model.ts";
import { planOf, productionRate } from "./predict.ts";

/** Many settings of one set-up on one part, each with the edges of every version of the physics along its power. */
export interface EdgeBook {
  readonly rays: readonly Ray[];
  /** versions of the physics */
  readonly draws: number;
  /** solves one more ray; the list stays as it is. Without its lesser edges (`lesser` false) it is not to be burned */
  readonly solve: (setting: Setting, lesser?: boolean) => Ray;
}

export interface EdgeBookOptions {
  readonly seed: number;
  /** rays in all, those asked for included */
  readonly rays?: number;
  /** settings of a first quick look */
  readonly looks?: number;
  /** settings whose rays must be there */
  readonly include?: readonly Setting[];
  /** whether only the included rays are to be burned: the others then go without their lesser edges, see `patchEdges` */
  readonly burnedOnly?: boolean;
  /** W, or null */
  readonly powerMax?: number | null;
  readonly onProgress?: (done: number, of: number) => void;
}

const QUICK_DRAWS = 12;
const GENERATIONS = 2;
const PARENTS = 12;
const CHILDREN = 5;

/**
 * Looks through the settings of a set-up on a few versions of the physics, keeps those that may turn out fastest in some
 * version, and solves them in all. Throws InvalidInput on a setting to include that the set-up cannot run.
 */
export function edgeBook(model: PartModel, setup: LaserSetup, options: EdgeBookOptions): EdgeBook {
  const powerMax = options.powerMax ?? null;
  const wanted = options.rays ?? 72;
  const source = raySource(model, setup);
  const included = distinct((options.include ?? []).map((s) => fullPower(setup, s, powerMax)));
  for (const setting of included) checkSetting(setup, setting);
  const picked = wanted > included.length ? pickRays(model, setup, source, options, wanted - included.length) : [];
  const settings = distinct([...included, ...picked]);
  const rays: Ray[] = [];
  for (const [i, setting] of settings.entries()) {
    const lesser = options.burnedOnly !== true || i < included.length;
    rays.push(solveRay(source, setting, nearest(rays, setting), lesser));
    options.onProgress?.(rays.length, settings.length);
  }
  return bookOf(model, setup, rays, powerMax);
}

/**
 * A book of rays that were solved before, by the same versions of the physics on the same part and set-up: nothing of that
 * is checked here. It solves further settings as the book that the rays came from did.
 */
export function bookOf(
  model: PartModel,
  setup: LaserSetup,
  rays: readonly Ray[],
  powerMax: number | null = null,
): EdgeBook {
  const source = raySource(model, setup);
  return {
    rays,
    draws: model.draws.length,
    solve: (setting, lesser = true) =>
      solveRay(source, fullPower(setup, setting, powerMax), nearest(rays, setting), lesser),
  };
}

function raySource(model: PartModel, setup: LaserSetup): RaySource {
  return {
    draws: model.draws,
    acceptance: model.part.acceptance,
    planOf: (setting) => planOf(model, setup, setting),
    rateOf: (setting) => productionRate(model, setup, setting),
  };
}

/** Two rounds of neighbours of the best after a first spread look; the best are those that `chooseRays` takes first. */
function pickRays(
  model: PartModel,
  setup: LaserSetup,
  source: RaySource,
  options: EdgeBookOptions,
  count: number,
): Setting[] {
  const powerMax = options.powerMax ?? null;
  const quick = Math.min(QUICK_DRAWS, model.draws.length);
  const looks: RayLook[] = [];
  const seen = new Set<string>();
  const look = (setting: Setting) => {
    const full = fullPower(setup, setting, powerMax);
    const key = JSON.stringify(full);
    if (seen.has(key) || !runs(setup, full)) return;
    seen.add(key);
    looks.push({
      setting: full,
      areaRate: source.rateOf(full),
      edges: edgesOf(source, planOf(model, setup, full, true), quick, undefined, false),
    });
  };
  for (const setting of candidateSettings(setup, { count: options.looks ?? 256, seed: options.seed, powerMax }))
    look(setting);
  const random = createRandom(options.seed).substream(7);
  for (let generation = 0; generation < GENERATIONS; generation++) {
    const parents = chooseRays(looks, Math.min(PARENTS, count), options.seed).map((i) => looks[i]!.setting);
    const reach = 0.5 / (generation + 1);
    for (const parent of parents) {
      for (let k = 0; k < CHILDREN; k++) {
        const u = Array.from({ length: 5 }, () => random.next());
        const moved = neighbour(setup, parent, u, reach, powerMax);
        if (moved) look(moved);
      }
    }
  }
  return chooseRays(looks, count, options.seed).map((i) => looks[i]!.setting);
}

/** The setting with its power turned up as far as its other controls, its pulse energy and the site allow. */
export function fullPower(setup: LaserSetup, setting: Setting, powerMax: number | null): Setting {
  const full = Math.min(1, (powerMax ?? Number.POSITIVE_INFINITY) / (setup.ratedPower * setting.duty));
  const turnedUp = roundToMachine(setup, { ...setting, power: setup.ratedPower, level: full });
  const beam = beamState(setup, turnedUp);
  if (!beam.energyLimited) return turnedUp;
  // Beyond the largest pulse the knob turns without effect: the ray begins where it takes hold.
  return { ...turnedUp, level: Math.ceil((beam.meanPower / setup.ratedPower) * 1000) / 1000 };
}

/** A solved ray with much the same event, which tells where the edges of the next will be. */
function nearest(rays: readonly Ray[], setting: Setting): Ray | undefined {
  let best: Ray | undefined;
  let least = Number.POSITIVE_INFINITY;
  const ln = (a: number | null, b: number | null) => Math.abs(Math.log((a ?? 1) / (b ?? 1)));
  for (const ray of rays) {
    const s = ray.setting;
    const off =
      ln(s.pulseWidth, setting.pulseWidth) +
      ln(s.speed, setting.speed) +
      ln(s.lineSpacing, setting.lineSpacing) +
      ln(s.frequency, setting.frequency) +
      0.5 * ln(s.passes, setting.passes) +
      (s.lens === setting.lens ? 0 : 1);
    if (off < least) {
      least = off;
      best = ray;
    }
  }
  return best;
}

function distinct(settings: readonly Setting[]): Setting[] {
  return [...new Map(settings.map((s) => [JSON.stringify(s), s])).values()];
}
