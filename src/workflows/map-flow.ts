import { createRandom } from "#numerics";
import type { LaserSetup, WindowMap } from "#terms";
import { fromSI } from "#units";
import { mapControls, type MapAxis, type MapSpec, checkSpec, settingAt } from "./map-spec.ts";
import { type Odds, shareOf } from "./odds.ts";
import type { BandTask, OddsTask } from "./part-task.ts";
import { bandCount, type MapBand } from "./physics-map.ts";
import type { Asking } from "./work-flow.ts";

/** A map from physics alone, with what it was held against. */
export interface PhysicsMap extends WindowMap {
  /** 1 where the machine can be set so, row major */
  readonly allowed: readonly number[];
  /** evaluations of one draw at one setting that were made, and how many there are */
  readonly evaluations: number;
  readonly evaluationsInFull: number;
  readonly check: MapCheck;
  readonly words: readonly string[];
}

/** The map held against the full evaluation at places chosen by seed. */
export interface MapCheck {
  readonly places: number;
  /** share of them where both chances agree within `tolerance` */
  readonly within: number;
  readonly tolerance: number;
  /** largest difference of a chance */
  readonly largest: number;
}

export interface MapOptions {
  readonly part: number;
  readonly setup: LaserSetup;
  readonly seed: number;
  readonly drawCount: number;
  /** places to check, 128 when left out */
  readonly checked?: number;
}

const TOLERANCE = 0.02;
/** A map of which less agrees is called approximate. */
const SHARE_WANTED = 0.98;
/** Places that one task checks. */
const CHECK_CHUNK = 16;

/** A map of the chances of clean and of undamaged over two values of a setting, as a flow of tasks. */
export function* mapFlow(spec: MapSpec, options: MapOptions): Asking<PhysicsMap> {
  const { part, setup } = options;
  checkSpec(setup, spec);
  const bands = Array.from(
    { length: bandCount(spec) },
    (_, band): BandTask => ({ kind: "band", part, setup, spec, band }),
  );
  const columns = spec.x.values.length;
  const places = placesToCheck(columns * spec.y.values.length, options.checked ?? 128, options.seed);
  const checks: OddsTask[] = [];
  for (let i = 0; i < places.length; i += CHECK_CHUNK) {
    const settings = places
      .slice(i, i + CHECK_CHUNK)
      .map((at) => settingAt(spec, at % columns, Math.floor(at / columns)));
    checks.push({ kind: "odds", part, setup, settings });
  }
  const results = yield [...bands, ...checks];
  const odds = (results.slice(bands.length) as Odds[][]).flat();
  return assemble(spec, results.slice(0, bands.length) as MapBand[], places, odds, options.drawCount);
}

function placesToCheck(of: number, count: number, seed: number): number[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, () => random.integer(of));
}

function assemble(
  spec: MapSpec,
  bands: readonly MapBand[],
  places: readonly number[],
  odds: readonly Odds[],
  drawCount: number,
): PhysicsMap {
  const chances = (counts: (band: MapBand) => Uint16Array) =>
    bands.flatMap((band) => Array.from(counts(band), (n) => shareOf(n, drawCount)));
  const clean = chances((b) => b.clean);
  const undamaged = chances((b) => b.undamaged);
  const off = places.map((at, i) =>
    Math.max(Math.abs(clean[at] - odds[i].clean), Math.abs(undamaged[at] - odds[i].undamaged)),
  );
  const within = off.filter((d) => d <= TOLERANCE).length / Math.max(1, off.length);
  const check = { places: places.length, within, tolerance: TOLERANCE, largest: Math.max(0, ...off) };
  return {
    ...axisNames(spec),
    probabilityClean: clean,
    probabilityUndamaged: undamaged,
    allowed: bands.flatMap((b) => Array.from(b.allowed)),
    evaluations: bands.reduce((sum, b) => sum + b.evaluations, 0),
    evaluationsInFull: clean.length * drawCount,
    check,
    words: wordsOf(check),
  };
}

function axisNames(spec: MapSpec) {
  const title = ({ control }: MapAxis) => {
    const { name, unit } = mapControls[control];
    return unit === "" ? name : `${name} (${unit})`;
  };
  const shown = ({ control, values }: MapAxis) => values.map((v) => fromSI(v, mapControls[control].unit));
  return { xName: title(spec.x), yName: title(spec.y), x: shown(spec.x), y: shown(spec.y) };
}

function wordsOf({ places, within, tolerance, largest }: MapCheck): string[] {
  const agree = `At ${places} places chosen at random the map and the full evaluation agree within ${tolerance} at ${Math.round(1000 * within) / 10} %, at worst ${largest.toFixed(3)} apart.`;
  return [
    "From physics alone, before anything is burned.",
    agree,
    ...(within < SHARE_WANTED ? ["The map is approximate: predict a setting before relying on its place here."] : []),
  ];
}
