import { describe, expect, it } from "vitest";
import { mapAxis, placeOnMap } from "../../src/report/map-axis.ts";
import { map, trial } from "./fixture-trial.ts";
import { continuousSetting, pulsedSetting } from "./fixture-verdicts.ts";

describe("axis of a window map", () => {
  it.each([
    ["speed", "scan speed (mm/s)", 1.5, 1500, 2400],
    ["lineSpacing", "line spacing (mm)", 1e-4, 0.1, 0.05],
    ["line spacing", "line spacing (mm)", 1e-4, 0.1, 0.05],
    ["level", "level (%)", 0.5, 50, 90],
    ["passes", "passes", 3, 3, 2],
    ["pulse width", "pulse width (ns)", 2e-7, 200, 100],
  ])("a bare name, %s, is SI and shown as %s", (name, shown, value, shownValue, ofSetting) => {
    const axis = mapAxis(name);
    expect(axis.name).toBe(shown);
    expect(axis.shown(value)).toBeCloseTo(shownValue, 9);
    expect(axis.ofSetting(pulsedSetting)).toBeCloseTo(ofSetting, 9);
  });

  it("a name with a unit keeps its values", () => {
    const axis = mapAxis("speed (m/s)");
    expect([axis.name, axis.shown(2), axis.ofSetting(pulsedSetting)]).toEqual(["speed (m/s)", 2, 2.4]);
  });

  it("gives no place to what is not on the axis", () => {
    expect(mapAxis("ln dose").ofSetting(pulsedSetting)).toBeNull();
    expect(mapAxis("pulse width").ofSetting(continuousSetting)).toBeNull();
    expect(mapAxis("speed (furlongs)").ofSetting(pulsedSetting)).toBeNull();
  });
});

describe("places on a window map", () => {
  it("are read off the settings where the map has none of its own", () => {
    const placed = placeOnMap(map, trial, pulsedSetting);
    expect(placed.points).toHaveLength(22);
    expect(placed.recommended).toEqual({ x: 2.4, y: 90 });
  });

  it("are the map's own where it has them", () => {
    const own = {
      ...map,
      xName: "peak fluence (J/cm²)",
      points: [{ patch: 3, x: 4, y: 0.5 }],
      recommendedAt: { x: 5, y: 0.6 },
    };
    const placed = placeOnMap(own, trial, pulsedSetting);
    expect(placed.points).toEqual([{ patch: 3, x: 4, y: 50 }]);
    expect(placed.recommended).toEqual({ x: 5, y: 60 });
    expect(placeOnMap({ ...own, recommendedAt: null }, trial, pulsedSetting).recommended).toBeNull();
  });
});
