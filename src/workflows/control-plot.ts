import type { Posterior } from "#calibration";
import type { Ray } from "#edges";
import type { DriftSpread, LaserSetup, Setting, Trial, WindowMap } from "#terms";
import { fromSI } from "#units";
import { choiceAt, rayTruth, truthDraws } from "#window";
import { runs } from "./candidates.ts";
import { type EdgeBook, fullPower } from "./edge-book.ts";
import { axisOver, checkSpec, mapControls, type MapAxis, type MapControl, settingAt } from "./map-spec.ts";
import { powerOn } from "./trial-evidence.ts";
import { CONSERVATIVE, MAP_DRAWS } from "./window-plot.ts";

/** The two controls that a map runs along. */
export interface MapAxes {
  readonly x: MapControl;
  readonly y: MapControl;
}

export interface ControlPlotOptions extends MapAxes {
  readonly drift: DriftSpread;
  readonly trial: Trial;
  readonly recommended: Setting | null;
}

/** Places along power, which costs next to nothing, and along a control that every place has to be solved anew for. */
const POWER_STEPS = 21;
const STEPS = 7;
/** How far beyond the values burned an axis runs; farther along power, where it costs nothing. */
const BEYOND = 1.5;
const BEYOND_POWER = 4;

/**
 * Chances over any two controls, all else as in the given setting, each averaged over production drift. Places that the
 * machine cannot be set to have no chance and are marked.
 *
 * Units: SI in, axes in the units that their names state. Range: controls that the setting has. Errors: InvalidInput for
 * equal controls and for a control that the set-up does not have or offers one value of. Source: `rayTruth`, `choiceAt`.
 */
export function controlPlot(
  setup: LaserSetup,
  book: EdgeBook,
  posterior: Posterior,
  centre: Setting,
  options: ControlPlotOptions,
): WindowMap {
  const burned = options.trial.patches.flatMap((p) => (p.setting ? [{ patch: p.patch, setting: p.setting }] : []));
  const axis = (control: MapControl) =>
    axisAround(
      setup,
      centre,
      control,
      burned.map((b) => b.setting[control]),
    );
  const spec = { setting: centre, x: axis(options.x), y: axis(options.y) };
  checkSpec(setup, spec);
  const truths = truthDraws(posterior, MAP_DRAWS);
  const solved = new Map<string, Ray>(book.rays.map((ray) => [JSON.stringify(ray.setting), ray]));
  const rayOf = (setting: Setting): Ray => {
    const key = JSON.stringify(fullPower(setup, setting, null));
    const ray = solved.get(key) ?? book.solve(setting, false);
    solved.set(key, ray);
    return ray;
  };
  const places = spec.y.values.flatMap((_, row) => spec.x.values.map((__, column) => settingAt(spec, column, row)));
  const beyond = places.map((setting) => !runs(setup, setting));
  const chances = places.map((setting, at) => {
    if (beyond[at]) return { clean: 0, undamaged: 0, share: 0 };
    const ray = rayOf(setting);
    return choiceAt(rayTruth(truths, ray, options.drift), powerOn(setup, ray, setting), 0);
  });
  const shown = (control: MapControl, value: number) => fromSI(value, mapControls[control].unit);
  const place = (setting: Setting) => {
    const [x, y] = [setting[options.x], setting[options.y]];
    return x === null || y === null ? null : { x: shown(options.x, x), y: shown(options.y, y) };
  };
  return {
    xName: titleOf(options.x),
    yName: titleOf(options.y),
    x: spec.x.values.map((v) => shown(options.x, v)),
    y: spec.y.values.map((v) => shown(options.y, v)),
    probabilityClean: chances.map((c) => c.clean),
    probabilityUndamaged: chances.map((c) => c.undamaged),
    conservative: chances.map((c) => c.share >= CONSERVATIVE),
    beyond,
    points: burned.flatMap(({ patch, setting }) => {
      const at = place(setting);
      return at === null ? [] : [{ patch, ...at }];
    }),
    recommendedAt: options.recommended && place(options.recommended),
  };
}

function titleOf(control: MapControl): string {
  const { name, unit } = mapControls[control];
  return unit === "" ? name : `${name} (${unit})`;
}

/** The values burned and a little more, as far as the machine goes; widths, passes and the focus over all it offers. */
function axisAround(
  setup: LaserSetup,
  centre: Setting,
  control: MapControl,
  burned: readonly (number | null)[],
): MapAxis {
  const power = control === "power" || control === "level";
  const count = power ? POWER_STEPS : STEPS;
  const beyond = power ? BEYOND_POWER : BEYOND;
  const own = centre[control];
  // What the setting does not have is refused by `checkSpec`, in its own words.
  if (own === null) return { control, values: [] };
  const whole = axisOver(setup, centre, control, count);
  if (control === "pulseWidth" || control === "passes" || control === "defocus") return whole;
  const known = [own, ...burned.filter((v) => v !== null)];
  const low = Math.max(whole.values[0]!, Math.min(...known) / beyond);
  const high = Math.min(whole.values.at(-1)!, Math.max(...known) * beyond);
  return { control, values: Array.from({ length: count }, (_, i) => low * (high / low) ** (i / (count - 1))) };
}
