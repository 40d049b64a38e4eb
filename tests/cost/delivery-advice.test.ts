import { depthOfFocus, fluenceBand, rimAngle, sagitta } from "#beam";
import { adviseDelivery, adviseLens, deliveryRules, usableField } from "#cost";
import { setup, setups } from "#library";
import type { Face, SiteLimits } from "#terms";
import fc from "fast-check";
import { describe, expect, it } from "vitest";

const anySite: SiteLimits = {
  deliveries: [],
  electricalPowerMax: null,
  laserPowerMax: null,
  enclosed: null,
  note: "",
};
const flat: Face = { kind: "flat", radius: null, note: "" };
const convex = (radius: number | null): Face => ({ kind: "convex", radius, note: "" });
const machine = setup("pulsed-200");
const advise = (area: number, count: number, faces: Face[] = [flat], site = anySite, on = machine) =>
  adviseDelivery({ area, count, faces }, site, on);

describe("usable field on a curve", () => {
  const lens = machine.lenses[1]!;

  it("keeps focus and incidence within a tenth of the fluence each, and one of the three ends meets it", () => {
    const radii = fc.double({ min: Math.log(2e-3), max: Math.log(50), noNaN: true });
    fc.assert(
      fc.property(radii, (ln) => {
        const radius = Math.exp(ln);
        const field = usableField(lens, radius);
        const half = sagitta(radius, field) / 2;
        const byFocus = fluenceBand({ low: -half, high: half }, lens.rayleighLength, 0).low;
        const byAngle = Math.cos(rimAngle(radius, field));
        expect(byFocus).toBeGreaterThanOrEqual(0.9 - 1e-9);
        expect(byAngle).toBeGreaterThanOrEqual(0.9 - 1e-9);
        expect(field).toBeLessThanOrEqual(lens.fieldSide);
        const tight = Math.min(byFocus - 0.9, byAngle - 0.9, lens.fieldSide - field);
        expect(Math.abs(tight)).toBeLessThan(1e-9);
      }),
    );
  });

  it("is the whole field on a flat face, and refuses a radius that is none", () => {
    expect(usableField(lens, null)).toBe(lens.fieldSide);
    expect(usableField(lens, 1e4)).toBe(lens.fieldSide);
    expect(() => usableField(lens, 0)).toThrow("invalid radius of the face: 0 m (must be above 0)");
  });
});

describe("lens", () => {
  it("is the smallest spot that covers the face in one field, else the widest field", () => {
    // Fields of the 200 W set-up: 110, 170, 220 mm.
    expect(adviseLens(machine, "scanner", 0.1, null)).toMatchObject({ lens: { id: "f160" }, fields: 1 });
    expect(adviseLens(machine, "scanner", 0.11, null).lens.id).toBe("f160");
    expect(adviseLens(machine, "scanner", 0.12, null).lens.id).toBe("f254");
    expect(adviseLens(machine, "robot", 0.5, null)).toMatchObject({ lens: { id: "f330" }, fields: 9 });
    expect(adviseLens(machine, "scanner", 0.5, null).why).toContain("No lens covers");
  });

  it("bears a hand's swing where one does, else is the deepest and says so", () => {
    const wide = setup("continuous-2000");
    const found = adviseLens(wide, "hand", 1, null);
    expect(found.lens.id).toBe("f400");
    expect(depthOfFocus(found.lens.rayleighLength, 0.1)).toBeGreaterThan(5e-3);
    expect(found.why).toContain("still bears");
    const narrow = adviseLens(setup("pulsed-100"), "hand", 1, null);
    expect(narrow.lens.id).toBe("f254");
    expect(narrow.why).toContain("spacer or roller");
  });
});

describe("delivery", () => {
  it("small flat face: scanner; many equal large parts: robot; one large structure: hand", () => {
    const small = advise(0.09 ** 2, 4);
    expect(small.delivery).toBe("scanner");
    expect(small.reasons[0]).toBe(
      "The face fits into one scan field: a fixed scanner needs no program and holds distance and pattern.",
    );
    const many = advise(1.5, 200);
    expect(many.delivery).toBe("robot");
    expect(many.reasons[0]).toContain("200 equal parts share one program");
    const large = advise(40, 1);
    expect(large.delivery).toBe("hand");
    expect(large.reasons[0]).toContain("One large piece of 40 m²");
    expect(large.notes.join(" ")).toContain("laser safety officer");
    for (const found of [small, many, large]) {
      expect(found.others).toHaveLength(2);
      expect(found.lens).not.toBeNull();
    }
  });

  it("turns at the rules it names", () => {
    const { manyParts, manyFields } = deliveryRules;
    const widest = machine.lenses.at(-1)!.fieldSide;
    const fieldsAcross = Math.sqrt(manyFields);
    expect(advise(1.5, manyParts - 1).delivery).not.toBe("robot");
    expect(advise(1.5, manyParts).delivery).toBe("robot");
    expect(advise((fieldsAcross * widest) ** 2, 1).delivery).toBe("scanner");
    expect(advise((fieldsAcross * widest * 1.01) ** 2, 1).delivery).toBe("hand");
  });

  it("counts fields on the curve: what fits flat does not fit on a tight radius", () => {
    expect(advise(0.04, 1).lens!.fields).toBe(1);
    const curved = advise(0.04, 1, [convex(0.1)]);
    expect(curved.delivery).toBe("scanner");
    expect(curved.lens!.fields).toBeGreaterThan(1);
    expect(advise(0.04, 1, [convex(8e-3)]).delivery).toBe("hand");
    expect(advise(0.04, 1, [convex(null)]).notes.join(" ")).toContain("no radius given");
  });

  it("lets a hand follow faces of several kinds, and a robot when there are many of them", () => {
    const faces: Face[] = [flat, { kind: "weld-bead", radius: null, note: "" }];
    expect(advise(0.04, 3, faces).delivery).toBe("hand");
    expect(advise(0.04, 30, faces).delivery).toBe("robot");
  });

  it("keeps to the site and the set-up, and says which of them barred what", () => {
    const only = advise(0.01, 1, [flat], { ...anySite, deliveries: ["hand"] });
    expect(only.delivery).toBe("hand");
    expect(only.reasons[0]).toBe("Only a hand-held head is possible here.");
    expect(only.others.map((o) => o.why)).toContain("The site does not allow a fixed scanner.");
    const none = advise(0.01, 1, [flat], { ...anySite, deliveries: ["robot"] }, setup("pulsed-50"));
    expect(none).toMatchObject({ delivery: null, lens: null });
    expect(none.others.map((o) => o.why)).toContain("Nanosecond pulsed 50 W is not offered with a robot.");
    const closed = advise(40, 1, [flat], { ...anySite, enclosed: true });
    expect(closed.delivery).not.toBe("hand");
    expect(closed.reasons[0]).toContain("suits this part well");
    expect(closed.others.find((o) => o.delivery === "hand")!.why).toContain("inside the enclosure");
  });

  it("notes what does not fit: supply, power on site, a hole too small", () => {
    const hole: Face = { kind: "hole", radius: 0.02, note: "" };
    const text = advise(0.01, 1, [hole], { ...anySite, electricalPowerMax: 500, laserPowerMax: 100 }).notes.join(" ");
    expect(text).toContain("draws about 0.91 kW, more than the 0.5 kVA on site");
    expect(text).toContain("allows 100 W of laser power");
    expect(text).toContain("does not reach into the hole face of 20 mm radius");
    expect(advise(0.01, 1, []).notes.join(" ")).toContain("taken as one flat face");
  });

  it("answers for every set-up in whole sentences that never call anything safe", () => {
    const size = fc.double({ min: -4, max: 3, noNaN: true });
    fc.assert(
      fc.property(fc.constantFrom(...setups), size, fc.integer({ min: 1, max: 500 }), size, (on, a, count, r) => {
        const found = advise(10 ** a, count, [convex(10 ** r / 10)], anySite, on);
        expect(on.deliveries).toContain(found.delivery);
        const lines = [...found.reasons, ...found.others.map((o) => o.why), ...found.notes];
        for (const line of lines) expect(line).toMatch(/^[A-Z0-9][^\n]*\.$/);
        expect(lines.join(" ")).not.toMatch(/\bsafe\b|NaN|undefined|Infinity/);
      }),
    );
  });

  it("refuses a part that is none", () => {
    expect(() => advise(0, 1)).toThrow("invalid area: 0 m2 (must be above 0)");
    expect(() => advise(1, 0.5)).toThrow("invalid count: 0.5 (must be a whole number)");
  });
});
