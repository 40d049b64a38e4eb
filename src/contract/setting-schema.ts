import { z } from "zod";
import { quantity } from "./quantity-field.ts";

const power_W = quantity({ unit: "W", above: 0, max: 1e5, description: "rated or set power before level" });
const frequency_kHz = quantity({ unit: "kHz", above: 0, max: 1e5, description: "pulse or modulation frequency" });
const pulseWidth_ns = quantity({ unit: "ns", above: 0, max: 1e7, description: "full width at half maximum" });
const level = quantity({ unit: "", above: 0, max: 1, description: "share of the power" });
const duty = quantity({ unit: "", above: 0, max: 1, description: "on-share of a modulation period; 1 for pulsed" });
const speed_mm_per_s = quantity({ unit: "mm/s", above: 0, max: 1e6 });
const lineSpacing_mm = quantity({ unit: "mm", above: 0, max: 1000 });
const passes = z.int().min(1).max(1000);
const defocus_mm = quantity({ unit: "mm", min: -1000, max: 1000 });
const lens = z.string().min(1).max(80).meta({ description: "id of a lens of the laser set-up" });

/** The setting file: any of these; what is left out comes from the laser set-up's own default. */
export const settingFileSchema = z
  .strictObject({
    $schema: z.string().max(500).optional(),
    power_W: power_W.optional(),
    frequency_kHz: frequency_kHz.nullable().optional(),
    pulseWidth_ns: pulseWidth_ns.nullable().optional(),
    level: level.optional(),
    duty: duty.optional(),
    speed_mm_per_s: speed_mm_per_s.optional(),
    lineSpacing_mm: lineSpacing_mm.optional(),
    passes: passes.optional(),
    defocus_mm: defocus_mm.optional(),
    lens: lens.optional(),
  })
  .meta({ title: "Scourlight setting" });

/** A whole setting, as outputs and records hold it. */
export const settingSchema = z
  .strictObject({
    power_W,
    frequency_kHz: frequency_kHz.nullable(),
    pulseWidth_ns: pulseWidth_ns.nullable(),
    level,
    duty,
    speed_mm_per_s,
    lineSpacing_mm,
    passes,
    defocus_mm,
    lens,
  })
  .meta({ id: "setting" });

export type SettingFile = z.output<typeof settingFileSchema>;
export type SettingWire = z.output<typeof settingSchema>;
