import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseEnquiry, parseOutcome, parseOutcomesCsv, parseSample, parseSetting, parseTrial } from "#contract";
import { InvalidInput } from "#units";
import { continuous, pulsed, shelves, trial } from "./shelves.ts";

/** The result, or null where the input was refused in the one allowed way and in one line. */
function accepted<T>(call: () => T): T | null {
  try {
    return call();
  } catch (error) {
    expect(error).toBeInstanceOf(InvalidInput);
    const { message, all } = error as InvalidInput & { all?: readonly string[] };
    for (const line of [message, ...(all ?? [])])
      expect(line).toMatch(/^invalid [^\r\n\u2028]+: [^\r\n\u2028]* \([^\r\n\u2028]+\)$/u);
    return null;
  }
}

/** First number inside that is not finite, with its place. Library entries are not walked: they did not come in. */
function notFinite(value: unknown, place = ""): string | null {
  if (typeof value === "number") return Number.isFinite(value) ? null : `${place}: ${value}`;
  if (value === null || typeof value !== "object" || "density" in value) return null;
  for (const [key, inner] of Object.entries(value)) {
    const found = notFinite(inner, `${place}.${key}`);
    if (found !== null) return found;
  }
  return null;
}

/** Numbers that hurt, numbers that fit, and texts that pretend to be numbers. */
const awkward = fc.oneof(
  fc.double(),
  fc.double({ min: 0, max: 200, noNaN: true }),
  fc.integer({ min: -2, max: 60 }),
  fc.constantFrom<unknown>(
    "unknown",
    "35 um",
    "35 s",
    "1e400",
    "1e-320 um",
    "NaN",
    "0x10",
    "",
    null,
    true,
    "5,5",
    -0,
    1e308,
  ),
);
const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined, freq: 3 });
const kind = fc.constantFrom("alkyd", "epoxy-primer", "clear-lacquer", "red-rust", "unknown", "nothing");

const layer = fc.record(
  {
    kind,
    group: fc.constantFrom("coating", "oxide", "metallic"),
    colour: fc.constantFrom("white", "mid", "clear", "natural", "unknown", "pink"),
    thickness_um: awkward,
    thicknessSpread_percent: maybe(awkward),
    mustStay: fc.boolean(),
  },
  { requiredKeys: [] },
);
const part = fc.record(
  {
    material: fc.constantFrom("aluminium-5083", "steel-low-carbon", "unknown", "stone", "cheese"),
    thickness_mm: awkward,
    area_m2: awkward,
    count: awkward,
    faces: fc.array(
      fc.record({ kind: fc.constantFrom("flat", "hole", "edge"), radius_mm: awkward }, { requiredKeys: [] }),
      { maxLength: 2 },
    ),
    layers: fc.array(layer, { maxLength: 3 }),
    acceptance: fc.record(
      { residueMax_percent: awkward, metalTemperatureMax_degC: awkward, confidence_percent: awkward },
      { requiredKeys: [] },
    ),
    rateWanted_m2_per_h: awkward,
  },
  { requiredKeys: [] },
);
const enquiry = fc.record(
  { parts: fc.array(part, { maxLength: 2 }), site: fc.record({ laserPowerMax_W: awkward }, { requiredKeys: [] }) },
  { requiredKeys: ["parts"] },
);

/** Mostly plausible parts, so that a good share is accepted. */
const goodLayer = fc.record({
  kind: fc.constantFrom("alkyd", "epoxy-primer", "unknown"),
  thickness_um: fc.oneof(fc.double({ min: 1e-3, max: 20_000, noNaN: true }), fc.constant("unknown")),
  thicknessSpread_percent: maybe(fc.double({ min: 0, max: 200, noNaN: true })),
});
const goodEnquiry = fc.record({
  parts: fc.array(
    fc.record({
      material: fc.constantFrom("aluminium-5083", "unknown"),
      thickness_mm: fc.oneof(fc.double({ min: 1e-6, max: 1000, noNaN: true }), fc.constant("unknown")),
      layers: fc.array(goodLayer, { minLength: 1, maxLength: 3 }),
    }),
    { minLength: 1, maxLength: 2 },
  ),
});

const setting = fc.record(
  {
    power_W: awkward,
    frequency_kHz: awkward,
    pulseWidth_ns: awkward,
    level: awkward,
    duty: awkward,
    speed_mm_per_s: awkward,
    lineSpacing_mm: awkward,
    passes: awkward,
    defocus_mm: awkward,
    lens: fc.constantFrom("f160", "f9"),
  },
  { requiredKeys: [] },
);

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const goodSetting = fc.record(
  {
    power_W: number(1e-6, 1e5),
    level: number(1e-6, 1),
    speed_mm_per_s: number(1e-6, 1e6),
    lineSpacing_mm: number(1e-6, 1000),
    passes: fc.integer({ min: 1, max: 1000 }),
    defocus_mm: number(-1000, 1000),
    lens: fc.constant("f160"),
  },
  { requiredKeys: [] },
);

const seeded = (numRuns: number) => ({ numRuns, seed: 20_26 });

describe("whatever comes in", () => {
  it("an accepted enquiry has finite numbers, thicknesses above zero in order, and shares that add up", () => {
    let taken = 0;
    fc.assert(
      fc.property(fc.oneof(enquiry, goodEnquiry), (json) => {
        const result = accepted(() => parseEnquiry(json, shelves));
        if (result === null) return;
        taken += 1;
        expect(notFinite(result)).toBeNull();
        for (const { mixture } of result.parts) {
          if (mixture.length > 0) expect(mixture.reduce((sum, m) => sum + m.weight, 0)).toBeCloseTo(1, 9);
          const bad = mixture.find(
            ({ stack }) =>
              !(stack.metalThickness > 0) ||
              stack.layers.some(({ thickness: t }) => !(t.low > 0 && t.low <= t.value && t.value <= t.high)),
          );
          expect(bad?.stack).toBeUndefined();
        }
      }),
      seeded(500),
    );
    expect(taken).toBeGreaterThan(150);
  });

  it("an accepted setting has finite numbers within their meaning", () => {
    let taken = 0;
    fc.assert(
      fc.property(fc.oneof(setting, goodSetting), fc.constantFrom(pulsed, continuous), (json, setup) => {
        const result = accepted(() => parseSetting(json, setup));
        if (result === null) return;
        taken += 1;
        expect(notFinite(result)).toBeNull();
        for (const key of ["power", "level", "duty", "speed", "lineSpacing", "passes"] as const) {
          if (result[key] !== undefined) expect(result[key]).toBeGreaterThan(0);
        }
      }),
      seeded(2000),
    );
    expect(taken).toBeGreaterThan(500);
  });

  it("garbage is refused as InvalidInput and in no other way", () => {
    fc.assert(
      fc.property(fc.oneof(fc.jsonValue(), fc.object(), fc.anything()), (json) => {
        accepted(() => parseEnquiry(json, shelves));
        accepted(() => parseEnquiry({ parts: [json] }, shelves));
        accepted(() => parseEnquiry({ parts: [{ layers: [json] }] }, shelves));
        accepted(() => parseSetting(json, pulsed));
        accepted(() => parseTrial(json));
        accepted(() => parseOutcome(json));
        accepted(() => parseSample(json));
      }),
      seeded(500),
    );
  });

  it("a CSV text gives rows that hold or lines that say why not", () => {
    const cell = fc.oneof(
      fc.string({ maxLength: 8 }),
      fc.constantFrom("1", "2", "3", "0", "5,5", "-1", '"', ";", "\n", "\r\n", "=cmd", "35 um", "1e999"),
    );
    const text = fc
      .tuple(fc.constantFrom(",", ";", "\t"), fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 6 }))
      .map(([mark, rows]) =>
        [["patch", "residue_percent", "metalCondition", "note"], ...rows].map((r) => r.join(mark)).join("\n"),
      );
    fc.assert(
      fc.property(fc.oneof(text, fc.string()), (csv) => {
        const result = accepted(() => parseOutcomesCsv(csv, trial));
        if (result === null) return;
        expect(notFinite(result.accepted)).toBeNull();
        for (const { residueFraction } of result.accepted) {
          if (residueFraction !== null) expect(residueFraction).toBeGreaterThanOrEqual(0);
        }
        for (const { line, message } of result.refused) {
          expect(line).toBeGreaterThan(0);
          expect(message).toMatch(/^invalid [^\r\n]+$/);
        }
      }),
      seeded(1500),
    );
  });
});
