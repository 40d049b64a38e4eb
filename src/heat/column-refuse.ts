import { invalid, requireNonNegative, requirePositive, requireShare } from "#units";
import type { ColumnLayer, ColumnLight, ColumnMetal, ColumnTable } from "./column-spec.ts";

/** What a column refuses to compute with. All throw `InvalidInput`; units as in the spec. */

/** m: a layer as thick as this is no layer, and its grid would say nothing. */
const thickestLayer = 0.1;

function requireTable(name: string, table: ColumnTable): void {
  const n = table.temperature.length;
  if (n === 0 || table.conductivity.length !== n || table.heatCapacity.length !== n) {
    invalid(name, n, "points", "temperature, conductivity and heat capacity must have the same length, above 0");
  }
  for (let i = 0; i < n; i++) {
    requirePositive("temperature", table.temperature[i], "K");
    requirePositive("conductivity", table.conductivity[i], "W/(m·K)");
    requirePositive("heat capacity", table.heatCapacity[i], "J/(kg·K)");
    if (i > 0 && !(table.temperature[i] > table.temperature[i - 1])) {
      invalid(name, table.temperature[i], "K", "temperatures must ascend");
    }
  }
}

/** A layer: thickness above 0 and at most 0.1 m, properties above 0, tables that ascend. */
export function requireLayer(layer: ColumnLayer): void {
  requirePositive("layer thickness", layer.thickness, "m");
  if (layer.thickness > thickestLayer) invalid("layer thickness", layer.thickness, "m", "must be at most 0.1 m");
  requirePositive("density", layer.density, "kg/m³");
  requirePositive("heat capacity", layer.heatCapacity, "J/(kg·K)");
  requirePositive("conductivity", layer.conductivity, "W/(m·K)");
  if (layer.table) requireTable("layer table", layer.table);
  if (layer.ablationTemperature !== null && layer.ablationHeat !== null) {
    requirePositive("ablation temperature", layer.ablationTemperature, "K");
    requirePositive("ablation heat", layer.ablationHeat, "J/kg");
  }
  if (layer.decomposition) {
    requirePositive("pre-exponential", layer.decomposition.preExponential, "1/s");
    requirePositive("activation energy", layer.decomposition.activationEnergy, "J/mol");
  }
  if (!layer.char) return;
  requireShare("char fraction", layer.char.fraction);
  requireNonNegative("char absorption", layer.char.absorption, "1/m");
  requirePositive("char conductivity", layer.char.conductivity, "W/(m·K)");
  requirePositive("char heat capacity", layer.char.heatCapacity, "J/(kg·K)");
}

/** A metal: properties above 0, a table that ascends, melting below boiling. */
export function requireMetal(metal: ColumnMetal): void {
  requireTable("metal table", metal);
  requirePositive("density", metal.density, "kg/m³");
  requirePositive("melting temperature", metal.meltingTemperature, "K");
  requireNonNegative("latent heat of melting", metal.latentHeatMelting, "J/kg");
  requireNonNegative("latent heat of boiling", metal.latentHeatBoiling, "J/kg");
  if (!(metal.boilingTemperature > metal.meltingTemperature)) {
    invalid("boiling temperature", metal.boilingTemperature, "K", "must be above the melting temperature");
  }
}

/** Light: one share per layer cell, none negative, together at most 1. Returns their sum. */
export function requireLight(light: ColumnLight, layerCount: number): number {
  const { layerShares } = light;
  if (layerShares.length !== layerCount) {
    invalid("layer shares", layerShares.length, "values", `must be one per layer cell, ${layerCount}`);
  }
  let sum = 0;
  for (let i = -2; i < layerCount; i++) {
    const share = i === -2 ? light.metalShare : i === -1 ? (light.topShare ?? 0) : layerShares[i];
    if (!(share >= 0)) invalid("share of light", share, "", "must be 0 or above");
    sum += share;
  }
  if (!(sum <= 1 + 1e-6)) invalid("shares of light", sum, "", "must add up to at most 1");
  return sum;
}
