import { requirePositive, requireFinite, invalid } from "#units";

/** A weld pass through a thin plate. */
export interface ThinPlatePass {
  /** J/m, net heat per length of weld: efficiency·voltage·current/speed */
  readonly heatPerLength: number;
  /** m */
  readonly plateThickness: number;
  /** J/(m³·K) */
  readonly volumetricHeat: number;
  /** K or °C, melting temperature at the fusion boundary */
  readonly meltingTemperature: number;
  /** same scale, plate before the pass */
  readonly plateTemperature: number;
}

const spread = Math.sqrt(2 * Math.PI * Math.E);

function requirePass(pass: ThinPlatePass): void {
  requirePositive("heat per length", pass.heatPerLength, "J/m");
  requirePositive("plate thickness", pass.plateThickness, "m");
  requirePositive("volumetric heat", pass.volumetricHeat, "J/(m³·K)");
  requireFinite("plate temperature", pass.plateTemperature, "K");
  if (!(pass.meltingTemperature > pass.plateTemperature)) {
    invalid("melting temperature", pass.meltingTemperature, "K", "must be above the plate temperature");
  }
}

/**
 * Peak temperature at a distance from the fusion boundary in a plate heated through its whole thickness:
 * 1/(T_p − T₀) = √(2πe)·ρc·h·y/H + 1/(T_m − T₀). distance y: m, ≥ 0. Result on the temperature scale of the input.
 * Valid for full-thickness line sources. Throws `InvalidInput`.
 * Source: AWS Welding Handbook vol. 1, heat flow in welding (from memory).
 */
export function thinPlatePeakTemperature(pass: ThinPlatePass, distance: number): number {
  requirePass(pass);
  if (!(distance >= 0)) invalid("distance", distance, "m", "must be 0 or above");
  const lateral = (spread * pass.volumetricHeat * pass.plateThickness * distance) / pass.heatPerLength;
  return pass.plateTemperature + 1 / (lateral + 1 / (pass.meltingTemperature - pass.plateTemperature));
}

/**
 * Distance from the fusion boundary to where the peak temperature was T: the formula above solved for y, m.
 * temperature T: between plate and melting temperature. Throws `InvalidInput`.
 * Source: AWS Welding Handbook vol. 1, heat flow in welding (from memory).
 */
export function thinPlateZoneWidth(pass: ThinPlatePass, temperature: number): number {
  requirePass(pass);
  if (!(temperature > pass.plateTemperature && temperature <= pass.meltingTemperature)) {
    invalid("temperature", temperature, "K", "must be above the plate and at most the melting temperature");
  }
  const difference = 1 / (temperature - pass.plateTemperature) - 1 / (pass.meltingTemperature - pass.plateTemperature);
  return (difference * pass.heatPerLength) / (spread * pass.volumetricHeat * pass.plateThickness);
}
