import { describe, expect, it } from "vitest";
import { checkSetting, defaultSetting } from "#beam";
import { setup, setups } from "#library";
import { toSI } from "#units";
import { controlsOf, controlValue, withValue } from "../../src/web/steps/setting/controls.ts";
import { cellText, columns, readCell } from "../../src/web/steps/results/columns.ts";
import { emptyOutcome } from "../../src/web/api/trials.ts";

describe("controls of a setting", () => {
  it.each(setups.map((s) => [s.id] as const))("of %s stay on what the machine can run, to both ends", (id) => {
    const machine = setup(id);
    const setting = defaultSetting(machine);
    for (const control of controlsOf(machine, setting)) {
      for (const far of [-1e12, 1e12]) {
        const moved = withValue(control, setting, far);
        expect(() => checkSetting(machine, moved), `${control.key} ${far}`).not.toThrow();
        expect(controlValue(control, moved)).toBeCloseTo(far < 0 ? control.low : control.high, 6);
      }
    }
  });

  it("show a focus on either side of the work as it is", () => {
    const machine = setup("pulsed-200");
    const setting = { ...defaultSetting(machine), defocus: toSI(-1, "mm") };
    const control = controlsOf(machine, setting).find((c) => c.key === "defocus")!;
    expect(controlValue(control, setting)).toBeCloseTo(-1, 12);
    expect(control.low).toBeCloseTo(-control.high, 12);
    expect(withValue(control, setting, -1).defocus).toBeCloseTo(setting.defocus, 15);
  });

  it("of the frequency follow the pulse width", () => {
    const machine = setup("pulsed-200");
    const highs = machine.pulses.map((pulse) => {
      const setting = { ...defaultSetting(machine), pulseWidth: pulse.width };
      return controlsOf(machine, setting).find((c) => c.key === "frequency")!.high;
    });
    machine.pulses.forEach((pulse, i) => {
      expect(highs[i]).toBeCloseTo(Math.min(machine.frequencyMax, pulse.frequencyMax) / 1e3, 6);
    });
  });
});

describe("cells of the results table", () => {
  it("are read into SI, with decimal point or comma", () => {
    expect(readCell("residueFraction", "12,5")).toBeCloseTo(0.125, 12);
    expect(readCell("thicknessAfter", " 3.2 ")).toBeCloseTo(3.2e-6, 15);
    expect(readCell("temperature", "80")).toBeCloseTo(353.15, 9);
    expect(readCell("lightness", "")).toBeNull();
    expect(readCell("lightness", "12 a")).toBeUndefined();
    expect(readCell("lightness", "Infinity")).toBeUndefined();
  });

  it("show what was typed", () => {
    for (const column of columns) {
      const outcome = { ...emptyOutcome("t", 1), [column.key]: readCell(column.key, "42.5") };
      expect(cellText(column, outcome), column.key).toBe("42.5");
    }
    expect(cellText(columns[0]!, undefined)).toBe("");
  });
});
