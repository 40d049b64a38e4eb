import type { BeamState, Setting } from "#terms";
import type { Behind } from "../../show/behind.tsx";
import { quantityText } from "../../show/quantity-text.ts";
import { words } from "../../words/index.ts";

export type NumberName = keyof typeof words.behind.numbers;

type Input = "power" | "spot" | "energy" | "frequency" | "speed" | "spacing" | "passes" | "width" | "defocus" | "mean";

const inputsOf: Partial<Record<NumberName, readonly Input[]>> = {
  spot: ["defocus"],
  meanPower: ["power", "frequency"],
  pulseEnergy: ["power", "frequency"],
  fluence: ["energy", "spot"],
  irradiance: ["energy", "width", "spot"],
  dwell: ["spot", "speed"],
  pulseOverlap: ["speed", "frequency", "spot"],
  lineOverlap: ["spacing", "spot"],
  lineEnergy: ["mean", "speed"],
  dose: ["mean", "speed", "spacing"],
  events: ["frequency", "spot", "speed", "spacing", "passes"],
  rate: ["speed", "spacing", "passes"],
};

/** What stands behind a number of a setting, with the values that go into it now. */
export function behindSetting(name: NumberName, setting: Setting, beam: BeamState): Behind {
  const w = words.setting;
  const known: Record<Input, readonly [string, string] | null> = {
    power: [w.power, quantityText(setting.power * setting.level, "W")],
    spot: [w.spot, quantityText(beam.spotDiameter, "um")],
    energy: beam.pulseEnergy === null ? null : [w.pulseEnergy, quantityText(beam.pulseEnergy, "mJ")],
    frequency: setting.frequency === null ? null : [w.frequency, quantityText(setting.frequency, "kHz")],
    speed: [w.speed, quantityText(setting.speed, "mm/s")],
    spacing: [w.lineSpacing, quantityText(setting.lineSpacing, "mm")],
    passes: [w.passes, String(setting.passes)],
    width: setting.pulseWidth === null ? null : [w.pulseWidth, quantityText(setting.pulseWidth, "ns")],
    defocus: [w.defocus, quantityText(setting.defocus, "mm")],
    mean: [w.meanPower, quantityText(beam.meanPower, "W")],
  };
  const inputs = (inputsOf[name] ?? []).flatMap((input) => {
    const found = known[input];
    return found === null ? [] : [{ name: found[0].toLowerCase(), value: found[1] }];
  });
  return { ...words.behind.numbers[name], inputs };
}
