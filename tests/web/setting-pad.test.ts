import { describe, expect, it } from "vitest";
import { completeSetting } from "#beam";
import { setup } from "#library";
import { axisOver, type MapAxis, type PulseFilm } from "#workflows";
import { filmScale, frameFigures, rowsToCells } from "../../src/web/steps/setting/film-paint.ts";
import { lettered, movedTo, shareOf, valueAt } from "../../src/web/steps/setting/pad-geometry.ts";

const laser = setup("pulsed-100");
const setting = completeSetting(laser, {});
const speed = axisOver(laser, setting, "speed", 3);
const defocus = axisOver(laser, setting, "defocus", 5);

describe("places on the map", () => {
  it("are in ratio between two values, and evenly apart where values fall to zero and below", () => {
    const coarse: MapAxis = { control: "speed", values: [0.1, 10] };
    expect(valueAt(coarse, 0.5)).toBeCloseTo(1, 12);
    expect(shareOf(coarse, 1)).toBeCloseTo(0.5, 12);
    expect(valueAt(defocus, 0.5)).toBeCloseTo(0, 12);
    expect(valueAt(defocus, 0.625)).toBeCloseTo(laser.defocusMax / 4, 12);
  });

  it("lead to their value and back, and stay on the map", () => {
    for (const axis of [speed, defocus])
      for (const share of [0, 0.1, 0.37, 0.5, 0.99, 1])
        expect(shareOf(axis, valueAt(axis, share)), axis.control).toBeCloseTo(share, 9);
    expect([shareOf(speed, 0), shareOf(speed, 1e9)]).toEqual([0, 1]);
    expect(valueAt(speed, 3)).toBeCloseTo(laser.speedMax, 9);
    const passes: MapAxis = { control: "passes", values: [1, 2, 5] };
    expect([0, 0.3, 0.6, 1].map((share) => valueAt(passes, share))).toEqual([1, 2, 2, 5]);
  });

  it("move both values of a setting and nothing else, inside the limits", () => {
    const moved = movedTo(laser, setting, speed, defocus, { x: 1, y: 2 });
    expect(moved).toEqual({ ...setting, speed: laser.speedMax, defocus: laser.defocusMax });
  });

  it("are lettered in the unit of the control", () => {
    for (const { share, value } of lettered(speed)) {
      expect(share).toBeCloseTo(shareOf(speed, value), 12);
      const shown = 1000 * value;
      expect([1, 2, 5]).toContain(Number((shown / 10 ** Math.floor(Math.log10(shown) + 1e-9)).toPrecision(6)));
    }
    expect(lettered(speed).length).toBeGreaterThan(2);
  });
});

describe("a frame of the film", () => {
  // Two cells of coat and two of metal; the upper one of the coat has left in the second frame.
  const film = {
    edges: [0, 10e-6, 20e-6, 22e-6, 30e-6],
    layerCells: 2,
    start: 300,
    times: [0, 1],
    gone: [0, 1],
    frames: [Float32Array.of(300, 300, 300, 300), Float32Array.of(9000, 900, 500, 400)],
    marks: [{ words: "boils", temperature: 3000 }],
  } as unknown as PulseFilm;

  it("says what has left, the surface that is there and the metal under the coat", () => {
    expect(frameFigures(film, 0)).toEqual({ gone: 0, surface: 300, metal: 300 });
    expect(frameFigures(film, 1)).toEqual({ gone: 10e-6, surface: 900, metal: 500 });
  });

  it("is drawn to scale, and what has left counts for no colour", () => {
    expect([...rowsToCells(film, 6)]).toEqual([0, 0, 1, 1, 3, 3]);
    expect(filmScale(film)).toEqual({ low: 300, high: 900 });
  });
});
