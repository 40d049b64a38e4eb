import { z } from "zod";
import { entryId, figure, word } from "./figure-schema.ts";

const colour = z.enum(["white", "mid", "dark", "clear", "natural"]);

const optics = z.strictObject({ absorption: figure("1/m"), scattering: figure("1/m") });

const char = z.strictObject({
  absorption: figure("1/m"),
  preExponential: figure("1/s"),
  activationEnergy: figure("J/mol"),
});

const decomposition = z.strictObject({
  preExponential: figure("1/s"),
  activationEnergy: figure("J/mol"),
  heat: figure("J/kg", "signed"),
  charFraction: figure("1", "share"),
  char: char.optional(),
});

export const layerSchema = z
  .strictObject({
    id: entryId,
    name: word,
    replaces: z.boolean().optional(),
    group: z.enum(["coating", "oxide", "contaminant", "metallic"]),
    density: figure("kg/m³"),
    conductivity: figure("W/(m·K)"),
    heatCapacity: figure("J/(kg·K)"),
    optics: z.partialRecord(colour, optics),
    externalReflectance: figure("1", "share"),
    internalReflectance: figure("1", "share"),
    decomposition: decomposition.nullable(),
    ablationTemperature: figure("K").nullable(),
    ablationHeat: figure("J/kg").nullable(),
    interfaceTemperature: figure("K"),
    interfaceActivationEnergy: figure("J/mol"),
    adhesionStrength: figure("Pa"),
    adhesionScatter: figure("1"),
    filmStrength: figure("Pa"),
    youngsModulus: figure("Pa"),
    poissonRatio: figure("1", "share"),
    expansion: figure("1/K"),
    incubation: figure("1", "share"),
    usualThickness: figure("m"),
    pits: z.strictObject({ areaShare: figure("1", "share"), depthRatio: figure("1") }).nullable(),
    damageTemperature: figure("K").nullable(),
    fume: z.array(entryId),
    mayHold: z.array(z.enum(["lead", "chromate", "cadmium", "asbestos"])),
    appearance: z.partialRecord(colour, z.string().regex(/^#[0-9a-f]{6}$/i, "must be a colour such as #8a4523")),
  })
  .refine((l) => Object.keys(l.optics).length > 0, { path: ["optics"], error: "must hold at least one colour class" })
  .refine((l) => l.decomposition !== null || (l.ablationTemperature !== null && l.ablationHeat !== null), {
    path: ["decomposition"],
    error: "must be given, or else ablationTemperature and ablationHeat",
  });
