import type { BeamState, Setting } from "#terms";
import { formatQuantity } from "#units";
import type { Fact } from "./model.ts";

/** A setting in the units of the machine's controls. Values without meaning on the set-up are left out. */
export function settingRows(setting: Setting): Fact[] {
  const rows: Fact[] = [
    { name: "power", value: formatQuantity(setting.power, "W") },
    { name: "level", value: formatQuantity(setting.level, "%") },
  ];
  if (setting.pulseWidth !== null) rows.push({ name: "pulse width", value: formatQuantity(setting.pulseWidth, "ns") });
  if (setting.frequency !== null) {
    const name = setting.pulseWidth === null ? "modulation frequency" : "pulse frequency";
    rows.push({ name, value: formatQuantity(setting.frequency, "kHz") });
  }
  if (setting.pulseWidth === null) rows.push({ name: "duty", value: formatQuantity(setting.duty, "%") });
  rows.push(
    { name: "scan speed", value: formatQuantity(setting.speed, "mm/s", 4) },
    { name: "line spacing", value: formatQuantity(setting.lineSpacing, "mm") },
    { name: "passes", value: String(setting.passes) },
    { name: "defocus", value: formatQuantity(setting.defocus, "mm") },
    { name: "lens", value: setting.lens },
  );
  return rows;
}

/** The same in one line. */
export function settingLine(setting: Setting): string {
  return settingRows(setting)
    .map((row) =>
      row.name === "passes" ? `${row.value} ${setting.passes === 1 ? "pass" : "passes"}` : `${row.name} ${row.value}`,
    )
    .join(", ");
}

/** What the setting makes at the work. */
export function beamRows(beam: BeamState): Fact[] {
  const rows: Fact[] = [
    {
      name: "mean power at the work",
      value: formatQuantity(beam.meanPower, "W"),
      note: beam.energyLimited ? "set by the largest pulse energy" : "",
    },
    { name: "spot diameter", value: formatQuantity(beam.spotDiameter, "um") },
  ];
  if (beam.pulseEnergy !== null) rows.push({ name: "pulse energy", value: formatQuantity(beam.pulseEnergy, "mJ") });
  if (beam.fluencePeak !== null) rows.push({ name: "peak fluence", value: formatQuantity(beam.fluencePeak, "J/cm2") });
  rows.push({ name: "dose of one pass", value: formatQuantity(beam.arealDose, "J/cm2") });
  if (beam.pulseOverlap !== null) rows.push({ name: "pulse overlap", value: formatQuantity(beam.pulseOverlap, "%") });
  rows.push({ name: "line overlap", value: formatQuantity(beam.lineOverlap, "%") });
  return rows;
}
