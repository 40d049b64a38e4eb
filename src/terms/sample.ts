/**
 * One version of the physics: every uncertain property of a stack replaced by a drawn number. SI throughout.
 */
export interface LayerSample {
  readonly kindId: string;
  readonly mustStay: boolean;
  readonly thickness: number;
  readonly density: number;
  readonly conductivity: number;
  readonly heatCapacity: number;
  /** Kubelka-Munk K, S, 1/m */
  readonly absorption: number;
  readonly scattering: number;
  readonly externalReflectance: number;
  readonly internalReflectance: number;
  readonly decomposition: {
    readonly preExponential: number;
    readonly activationEnergy: number;
    readonly heat: number;
    readonly charFraction: number;
    /** absent where the library knows nothing of the char */
    readonly char?: {
      /** 1/m, of a fully charred layer, per metre of the layer as it was */
      readonly absorption: number;
      /** 1/s, burn-off in air */
      readonly preExponential: number;
      /** J/mol */
      readonly activationEnergy: number;
    };
  } | null;
  readonly ablationTemperature: number | null;
  readonly ablationHeat: number | null;
  readonly interfaceTemperature: number;
  readonly interfaceActivationEnergy: number;
  readonly adhesionStrength: number;
  readonly adhesionScatter: number;
  readonly filmStrength: number;
  readonly youngsModulus: number;
  readonly poissonRatio: number;
  readonly expansion: number;
  readonly incubation: number;
  readonly pitAreaShare: number;
  readonly pitDepthRatio: number;
  readonly damageTemperature: number | null;
}

export interface MetalSample {
  readonly metalId: string;
  readonly density: number;
  /** temperature table, K, ascending, shared by both property columns */
  readonly temperature: Float64Array;
  /** W/(m·K) */
  readonly conductivity: Float64Array;
  /** J/(kg·K) */
  readonly heatCapacity: Float64Array;
  readonly meltingTemperature: number;
  readonly latentHeatMelting: number;
  readonly boilingTemperature: number;
  readonly latentHeatBoiling: number;
  readonly absorptance: number;
  readonly expansion: number;
  readonly oxide: {
    readonly preExponential: number;
    readonly activationEnergy: number;
    readonly refractiveIndex: number;
  } | null;
  readonly serviceTemperature: number | null;
  /** m, thickness of the metal */
  readonly thickness: number;
}

export interface StackSample {
  /** which stack of the mixture this draw came from */
  readonly stackIndex: number;
  readonly layers: readonly LayerSample[];
  readonly metal: MetalSample;
  /** factor on the nominal spot diameter */
  readonly spotFactor: number;
  /** factor on the delivered power */
  readonly powerFactor: number;
  /** J/(m²·s^½): the plume shades above this times √(pulse width); absent: the median of the library */
  readonly plumeFactor?: number;
  /** rust to magnetite: 1/s at 1700 K, and J/mol; absent: the medians of the library */
  readonly conversionRate?: number;
  readonly conversionEnergy?: number;
}
