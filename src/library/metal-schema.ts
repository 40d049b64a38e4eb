import { z } from "zod";
import { above0, entryId, figure, table, word } from "./figure-schema.ts";

/** K; a little above the 293.15 K that every part starts from. */
const COLDEST = 300;

const oxideGrowth = z.strictObject({
  oxide: word,
  preExponential: figure("m²/s"),
  activationEnergy: figure("J/mol"),
  fittedFrom: above0,
  fittedTo: above0,
  refractiveIndex: above0,
});

export const metalSchema = z
  .strictObject({
    id: entryId,
    name: word,
    replaces: z.boolean().optional(),
    family: entryId,
    density: figure("kg/m³"),
    conductivity: table("W/(m·K)"),
    heatCapacity: table("J/(kg·K)"),
    meltingTemperature: figure("K"),
    latentHeatMelting: figure("J/kg"),
    boilingTemperature: figure("K"),
    latentHeatBoiling: figure("J/kg"),
    absorptance: figure("1", "share"),
    refractiveIndex: figure("1").nullable(),
    extinctionCoefficient: figure("1").nullable(),
    expansion: figure("1/K"),
    oxideGrowth: oxideGrowth.nullable(),
    serviceTemperature: figure("K").nullable(),
    cautions: z.array(word),
  })
  .refine((m) => m.meltingTemperature.high < m.boilingTemperature.low, {
    path: ["boilingTemperature", "low"],
    error: "must be above the highest melting temperature: metals that do not melt before they boil are out of scope",
  })
  .refine((m) => m.meltingTemperature.low >= COLDEST, {
    path: ["meltingTemperature", "low"],
    error: `must be ${COLDEST} K or above: the part is solid at room temperature`,
  });
