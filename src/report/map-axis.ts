import type { Setting, Trial, WindowMap } from "#terms";
import { fromSI, parseUnit } from "#units";

interface AxisKind {
  readonly label: string;
  readonly unit: string;
  readonly of: (setting: Setting) => number | null;
}

/** Values of a setting that a map may have on an axis, by their name in letters only. */
const kinds: Readonly<Record<string, AxisKind>> = {
  power: { label: "power", unit: "W", of: (s) => s.power },
  level: { label: "level", unit: "%", of: (s) => s.level },
  duty: { label: "duty", unit: "%", of: (s) => s.duty },
  frequency: { label: "frequency", unit: "kHz", of: (s) => s.frequency },
  pulsewidth: { label: "pulse width", unit: "ns", of: (s) => s.pulseWidth },
  speed: { label: "scan speed", unit: "mm/s", of: (s) => s.speed },
  scanspeed: { label: "scan speed", unit: "mm/s", of: (s) => s.speed },
  linespacing: { label: "line spacing", unit: "mm", of: (s) => s.lineSpacing },
  passes: { label: "passes", unit: "1", of: (s) => s.passes },
  defocus: { label: "defocus", unit: "mm", of: (s) => s.defocus },
};

export interface MapAxis {
  readonly name: string;
  /** from a value on the map to the value shown */
  readonly shown: (value: number) => number;
  /** the shown value of a setting; null where this axis is none of its values */
  readonly ofSetting: (setting: Setting) => number | null;
}

/**
 * A map's axis, made readable. A name with a unit in brackets, "speed (m/s)", means values in that unit; a bare name
 * means SI, and is shown in the unit of the machine's controls.
 */
export function mapAxis(name: string): MapAxis {
  const [, bare = name, unit = null] = /^(.*?)\s*\(([^)]*)\)\s*$/.exec(name) ?? [];
  const kind = kinds[bare.toLowerCase().replace(/[^a-z]/g, "")];
  const same = (value: number): number => value;
  if (kind === undefined) return { name, shown: same, ofSetting: () => null };
  const inUnit = (setting: Setting, u: string): number | null => {
    const value = kind.of(setting);
    return value === null ? null : fromSI(value, u);
  };
  if (unit !== null) {
    const known = parseUnit(unit) !== null;
    return { name, shown: same, ofSetting: (setting) => (known ? inUnit(setting, unit) : null) };
  }
  const label = kind.unit === "1" ? kind.label : `${kind.label} (${kind.unit})`;
  return { name: label, shown: (v) => fromSI(v, kind.unit), ofSetting: (s) => inUnit(s, kind.unit) };
}

export interface PlacedMap {
  readonly map: WindowMap;
  readonly points: readonly { readonly patch: number; readonly x: number; readonly y: number }[];
  readonly recommended: { readonly x: number; readonly y: number } | null;
}

/**
 * A map with readable axes, and where patches and the recommended setting lie on it. The map's own places hold where
 * it has them; otherwise they are read off the settings, and what has no place on these axes is left out.
 */
export function placeOnMap(map: WindowMap, trial: Trial, recommended: Setting | null): PlacedMap {
  const [x, y] = [mapAxis(map.xName), mapAxis(map.yName)];
  const shown = <P extends { readonly x: number; readonly y: number }>(place: P): P => ({
    ...place,
    x: x.shown(place.x),
    y: y.shown(place.y),
  });
  const ofSetting = (setting: Setting | null): { x: number; y: number } | null => {
    if (setting === null) return null;
    const [px, py] = [x.ofSetting(setting), y.ofSetting(setting)];
    return px === null || py === null ? null : { x: px, y: py };
  };
  const read = trial.patches.flatMap(({ patch, setting }) => {
    const place = ofSetting(setting);
    return place === null ? [] : [{ patch, ...place }];
  });
  const own = map.recommendedAt;
  return {
    map: { ...map, xName: x.name, yName: y.name, x: map.x.map(x.shown), y: map.y.map(y.shown) },
    points: map.points?.map(shown) ?? read,
    recommended: own === undefined ? ofSetting(recommended) : own === null ? null : shown(own),
  };
}
