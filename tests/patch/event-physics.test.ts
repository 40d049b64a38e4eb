import { defaultSetting } from "#beam";
import { parseEnquiry } from "#contract";
import { createLibrary } from "#library";
import { centreFluence, type PatchPlan } from "#patch";
import { lawTable, plumeThreshold } from "#removal";
import { createPartModel, planOf } from "#workflows";
import { describe, expect, it } from "vitest";
import { eventPhysics } from "../../src/patch/event-physics.ts";
import { AMBIENT } from "../../src/patch/metal-outcome.ts";
import { eventDuration, patchPlan } from "../../src/patch/patch-plan.ts";

const library = createLibrary([]);
const [part] = parseEnquiry(
  { parts: [{ material: "steel-low-carbon", layers: [{ kind: "alkyd", colour: "dark", thickness_um: 60 }] }] },
  library,
).parts;
const model = createPartModel(part!, { seed: 3, drawCount: 2 });
const draw = model.draws[0]!;
const pulsed = library.setup("pulsed-500");
const continuous = library.setups.find((s) => s.kind === "continuous")!;
const ofPulses = planOf(model, pulsed, defaultSetting(pulsed));
const base = defaultSetting(continuous);
const ofLine = planOf(model, continuous, { ...base, frequency: null, duty: 1 });

/** A plan of given figures: 100 W, 1 m/s, 10 kHz, 1 mJ. */
const figures = (events: "train" | "line", profile: "gaussian" | "top-hat", pulseEnergy: number | null = 1e-3) =>
  ({
    events,
    setup: { profile },
    setting: { speed: 1, frequency: 1e4 },
    beam: { meanPower: 100, pulseEnergy, onTime: 2e-7 },
  }) as unknown as PatchPlan;

describe("fluence at the middle of an event", () => {
  it("of pulses is 2E/(πw²) or E/(πr²): 1 mJ on 100 µm are 6.366 and 3.183 J/cm²", () => {
    expect(centreFluence(figures("train", "gaussian"), 100e-6, 1) / 1e4).toBeCloseTo(6.3662, 4);
    expect(centreFluence(figures("train", "top-hat"), 100e-6, 1) / 1e4).toBeCloseTo(3.1831, 4);
    // bursts of a beam that is told by its mean power: 100 W/10 kHz = 10 mJ
    expect(centreFluence(figures("train", "gaussian", null), 100e-6, 0.5) / 1e4).toBeCloseTo(31.831, 3);
  });

  it("of a line integrates the passing intensity over time", () => {
    const [radius, power, speed] = [100e-6, 100, 1];
    const n = 20000;
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const x = ((i + 0.5) / n - 0.5) * 10 * radius;
      sum +=
        ((2 * power) / (Math.PI * radius ** 2)) * Math.exp((-2 * x * x) / radius ** 2) * ((10 * radius) / n / speed);
    }
    expect(centreFluence(figures("line", "gaussian"), radius, 1) / sum).toBeCloseTo(1, 9);
    // P/(πr²)·2r/v = 100/(π·1e-8)·2e-4
    expect(centreFluence(figures("line", "top-hat"), radius, 1)).toBeCloseTo(636619.77, 1);
  });

  it("lasts as long as the pulse, or as the spot takes to pass", () => {
    expect(eventDuration(figures("train", "gaussian"), 100e-6)).toBe(2e-7);
    expect(eventDuration(figures("line", "gaussian"), 100e-6)).toBeCloseTo(2e-4, 15);
  });
});

describe("how a setting's light arrives", () => {
  const beam = { ...ofLine.beam, spotDiameter: 200e-6, onTime: 1e-4, pulsePitch: 1e-3 };
  const events = (more: object, setting: object = {}) =>
    patchPlan(
      continuous,
      { ...ofLine.setting, frequency: 1e3, speed: 0.9, ...setting },
      { ...beam, ...more },
      ofLine.warming,
    ).events;

  it("is a train of bursts that end before the spot has moved by its radius, else a line", () => {
    expect(events({})).toBe("train");
    expect(events({}, { speed: 1.01 })).toBe("line");
    expect(events({ onTime: null })).toBe("line");
    expect(events({}, { frequency: null })).toBe("line");
  });
});

describe("events of a plan in one version of the physics", () => {
  const physics = eventPhysics(draw, ofPulses);
  const line = eventPhysics(draw, ofLine);

  it("takes the spot, the power and the time of that version", () => {
    const { sample } = draw;
    const radius = (ofPulses.beam.spotDiameter / 2) * sample.spotFactor;
    expect(physics.radius).toBeCloseTo(radius, 15);
    expect(physics.duration).toBe(ofPulses.beam.onTime);
    expect(line.duration).toBeCloseTo((ofLine.beam.spotDiameter * sample.spotFactor) / ofLine.setting.speed, 12);
    expect([physics.line, line.line]).toEqual([false, true]);
    const { fluence } = physics.point(physics.law(300), 1e-6);
    const factor = ofPulses.setup.profile === "gaussian" ? 2 : 1;
    expect(
      fluence / ((factor * ofPulses.beam.pulseEnergy! * sample.powerFactor) / (Math.PI * radius ** 2)),
    ).toBeCloseTo(1, 12);
  });

  it("warms by watts taken as heat: a share of the power, twice as much at twice the power", () => {
    const twice = eventPhysics(draw, ofPulses, 2);
    expect(twice.absorbedPower).toBeCloseTo(2 * physics.absorbedPower, 9);
    expect(physics.absorbedPower).toBeLessThan(ofPulses.beam.meanPower * draw.sample.powerFactor);
    expect(physics.absorbedPower).toBeGreaterThan(0.05 * ofPulses.beam.meanPower);
    expect(physics.bound).toBeCloseTo(AMBIENT + ofPulses.warming.perAbsorbedWatt * physics.absorbedPower, 9);
    const law = physics.law(300);
    expect(twice.point(law, 1e-6).fluence / physics.point(law, 1e-6).fluence).toBeCloseTo(2, 12);
  });

  it("hands a point its gaps: events of a group, a whole line; a plume for pulses only", () => {
    const law = physics.law(300);
    const point = physics.point(law, 7e-6);
    const setting = ofPulses.setting;
    expect(point.pulseGap).toBeCloseTo(ofPulses.cell.multiplicity / setting.frequency!, 15);
    const slow = planOf(model, pulsed, { ...ofPulses.setting, speed: 0.05 });
    expect(slow.cell.multiplicity).toBeGreaterThan(5);
    expect(eventPhysics(draw, slow).point(law, 7e-6).pulseGap).toBeCloseTo(
      slow.cell.multiplicity / slow.setting.frequency!,
      15,
    );
    expect(point.lineGap).toBe(ofPulses.warming.lineTime);
    expect(point.multiplicity).toBe(ofPulses.cell.multiplicity);
    expect(point.passes).toBe(setting.passes);
    expect(point.thickness).toBe(7e-6);
    expect(point.residueThickness).toBe(draw.strip.residueThickness);
    expect(point.plume).toBe(plumeThreshold(physics.duration, draw.sample.plumeFactor));
    expect([point.lineEvents, line.point(law, 1e-6).lineEvents]).toEqual([false, true]);
    expect(line.point(law, 1e-6).plume).toBe(Number.POSITIVE_INFINITY);
    expect(line.point(law, 1e-6).pulseGap).toBe(0);
    const { adhesionScatter, incubation } = draw.strip.off.at(-1)!;
    expect([point.adhesionScatter, point.incubation]).toEqual([adhesionScatter, incubation]);
  });

  it("holds the law below melting, and warms it towards its thresholds", () => {
    const melting = draw.sample.metal.meltingTemperature;
    expect(physics.law(9999).startTemperature).toBeCloseTo(melting - 1, 9);
    const [cool, warm] = [physics.law(300), physics.law(500)];
    expect(cool.startTemperature).toBe(300);
    for (let i = 1; i < cool.remaining.length; i++) expect(warm.firstEaten[i]).toBeLessThan(cool.firstEaten[i]!);
  });

  it("reads a line between two rungs a factor of two apart, its time that of the line", () => {
    const law = line.law(300);
    // FWHM of the passing Gaussian, √(ln 2/2) of its 1/e² width; a flat top counts whole
    const share = ofLine.setup.profile === "gaussian" ? Math.sqrt(Math.LN2 / 2) : 1;
    expect(law.reactionTime / (share * line.duration)).toBeCloseTo(1, 9);
    const rung = 2 ** Math.floor(Math.log2(line.duration));
    const shape = ofLine.setup.profile === "gaussian" ? "gaussian" : "square";
    const [a, b] = [draw.kernel(rung, shape), draw.kernel(2 * rung, shape)];
    const between =
      law.metalRise[0]! /
      draw.lateralFactor({
        duration: line.duration,
        radius: line.radius,
        diffusivity: draw.metal.diffusivity,
        speed: ofLine.setting.speed,
      });
    const weight = Math.log2(line.duration / rung);
    expect(between / ((1 - weight) * a.nodes[0]!.metalRise + weight * b.nodes[0]!.metalRise)).toBeCloseTo(1, 9);
  });

  it("spreads the heat of a pulse as under a beam at rest, and reads both rungs of a line at the same fluences", () => {
    const still = draw.lateralFactor({
      duration: physics.duration,
      radius: physics.radius,
      diffusivity: draw.metal.diffusivity,
      speed: 0,
    });
    const { nodes } = draw.kernel(physics.duration, "square");
    expect(physics.law(300).metalRise[0]).toBeCloseTo(still * nodes[0]!.metalRise, 15);
    // filled wherever these pulses reach, from a four-hundredth of the peak to seven times it after incubation
    const alone = physics.law(300);
    const whole = lawTable(draw.sample, draw.kernel(physics.duration, "square"), draw.square, {
      startTemperature: 300,
      radius: physics.radius,
      lateralFactor: still,
    });
    alone.need(3);
    whole.need(3);
    const peak = Math.log(physics.point(alone, 1e-6).fluence);
    for (let ln = peak - 6; ln <= peak + 2; ln += 0.1) {
      const i = 3 * alone.columns + Math.ceil((ln - alone.lnFluenceFirst) / alone.lnFluenceStep);
      expect(alone.strength[i]).toBeCloseTo(whole.strength[i]!, 9);
    }
    const law = line.law(300);
    const shape = ofLine.setup.profile === "gaussian" ? "gaussian" : "square";
    const { first, second, weight } = draw.kernelsAround(line.duration, shape);
    expect(weight).toBeGreaterThan(0.01);
    const lateralFactor = draw.lateralFactor({
      duration: line.duration,
      radius: line.radius,
      diffusivity: draw.metal.diffusivity,
      speed: ofLine.setting.speed,
    });
    const { lnFluenceFirst } = law;
    const at = { startTemperature: 300, radius: line.radius, lateralFactor, lnFluenceFirst };
    const column = shape === "square" ? draw.square : draw.gaussian;
    const [a, b] = [first, second].map((kernel) => lawTable(draw.sample, kernel, column, at));
    const row = 3;
    for (const l of [law, a!, b!]) l.need(row);
    let told = 0;
    for (let i = row * law.columns; i < (row + 1) * law.columns; i++) {
      const mixed = (1 - weight) * a!.eaten[i]! + weight * b!.eaten[i]!;
      expect(law.eaten[i]).toBeCloseTo(mixed, 15);
      if (mixed > 0) told++;
    }
    expect(told).toBeGreaterThan(10);
  });

  it("answers a pulse by the column and a Gaussian line by heat that spreads", () => {
    expect(physics.response).toBe(draw.square);
    if (ofLine.setup.profile === "gaussian") {
      expect(line.response).not.toBe(draw.gaussian);
      expect(line.response.rise(800, 300)).not.toBe(draw.gaussian.rise(800, 300));
    } else expect(line.response).toBe(draw.square);
  });
});
