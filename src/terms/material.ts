import type { Property, TemperatureTable } from "./property.ts";
import type { Metre } from "./quantities.ts";

/** Growth of an oxide on the metal: x² = ∫ k_p dt, k_p = preExponential·exp(−activationEnergy/(R·T)). */
export interface OxideGrowth {
  readonly oxide: string;
  /** m²/s */
  readonly preExponential: Property;
  /** J/mol */
  readonly activationEnergy: Property;
  /** K, range in which the law was fitted */
  readonly fittedFrom: number;
  readonly fittedTo: number;
  /** Refractive index of the oxide film in the visible, for its interference colour. */
  readonly refractiveIndex: number;
}

/** A metal as the library keeps it. */
export interface Metal {
  readonly id: string;
  readonly name: string;
  /** "aluminium" | "steel" | "stainless" | "titanium" | "copper" | "zinc" | "cast-iron" or a user's own family */
  readonly family: string;
  readonly density: Property;
  /** W/(m·K) over K */
  readonly conductivity: TemperatureTable;
  /** J/(kg·K) over K */
  readonly heatCapacity: TemperatureTable;
  /** Solidus, K: where melting begins. */
  readonly meltingTemperature: Property;
  readonly latentHeatMelting: Property;
  readonly boilingTemperature: Property;
  readonly latentHeatBoiling: Property;
  /** Share of normally incident 1.06 µm light absorbed by the surface as it comes (roughness, thin oxide). */
  readonly absorptance: Property;
  /** Polished optical constants at 1.064 µm, where tabulated. */
  readonly refractiveIndex: Property | null;
  readonly extinctionCoefficient: Property | null;
  /** 1/K */
  readonly expansion: Property;
  readonly oxideGrowth: OxideGrowth | null;
  /** A second temperature at which the part itself is harmed (over-ageing, temper loss), K, or null. */
  readonly serviceTemperature: Property | null;
  readonly cautions: readonly string[];
}

export type ColourClass = "white" | "mid" | "dark" | "clear" | "natural";

/** Near-infrared optics of a layer in one colour class. */
export interface LayerOptics {
  /** Kubelka-Munk absorption K, 1/m */
  readonly absorption: Property;
  /** Kubelka-Munk scattering S, 1/m */
  readonly scattering: Property;
}

/** What an organic layer leaves when it decomposes: it absorbs, and it burns off in hot air. */
export interface Char {
  /** 1/m at the laser wavelength, per metre of the layer as it was: a char keeps the room of the layer. */
  readonly absorption: Property;
  /** 1/s, burn-off in air: dC/dt = −A·exp(−E/(R·T))·C as long as air reaches it. */
  readonly preExponential: Property;
  /** J/mol */
  readonly activationEnergy: Property;
}

/** First-order Arrhenius decomposition: dX/dt = A·exp(−E/(R·T))·(1 − X). */
export interface Decomposition {
  /** 1/s */
  readonly preExponential: Property;
  /** J/mol */
  readonly activationEnergy: Property;
  /** J/kg, heat taken up by the reaction (positive: endothermic) */
  readonly heat: Property;
  /** Share of mass left as char. */
  readonly charFraction: Property;
  /** Optics and burn-off of that char; absent where nothing is known of it. */
  readonly char?: Char | undefined;
}

/** What a layer is, as the library keeps it. */
export interface LayerKind {
  readonly id: string;
  readonly name: string;
  readonly group: "coating" | "oxide" | "contaminant" | "metallic";
  readonly density: Property;
  readonly conductivity: Property;
  readonly heatCapacity: Property;
  /** Optics by colour class; a kind with one appearance has "natural" only. */
  readonly optics: Readonly<Partial<Record<ColourClass, LayerOptics>>>;
  /** Share of collimated light reflected at the outer surface. */
  readonly externalReflectance: Property;
  /** Share of diffuse light thrown back inside at the outer surface (0 for a clear film). */
  readonly internalReflectance: Property;
  readonly decomposition: Decomposition | null;
  /** K at which the layer ablates without a kinetic law (oxides, metallic layers), else null. */
  readonly ablationTemperature: Property | null;
  /** J/kg taken up by ablation at that temperature, else null. */
  readonly ablationHeat: Property | null;
  /** K, interface gasification temperature for 100 ns (physics §3a). */
  readonly interfaceTemperature: Property;
  /** J/mol, how that temperature rises as time shortens. */
  readonly interfaceActivationEnergy: Property;
  /** Pa, adhesion strength to the metal or layer below. */
  readonly adhesionStrength: Property;
  /** Standard deviation of ln(adhesion) from place to place. */
  readonly adhesionScatter: Property;
  /** Pa, in-plane shear strength of the film. */
  readonly filmStrength: Property;
  /** Pa */
  readonly youngsModulus: Property;
  readonly poissonRatio: Property;
  /** 1/K */
  readonly expansion: Property;
  /** Exponent S in F_N = F_1·N^(S−1); 1 means no incubation. */
  readonly incubation: Property;
  /** Usual thickness, m, used where the enquiry says "unknown". */
  readonly usualThickness: Property;
  /** Share of area with pits that hold extra thickness (rust), and their extra depth in layer thicknesses. */
  readonly pits: { readonly areaShare: Property; readonly depthRatio: Property } | null;
  /** K above which the layer itself is harmed when it must stay, else null. */
  readonly damageTemperature: Property | null;
  /** Ids of fume entries in the library. */
  readonly fume: readonly string[];
  /** Substances that old examples may hold and that change the whole job. */
  readonly mayHold: readonly ("lead" | "chromate" | "cadmium" | "asbestos")[];
  /** Visible appearance for pictures: CSS colour per colour class. */
  readonly appearance: Readonly<Partial<Record<ColourClass, string>>>;
}

/** One layer of a part: a kind in a colour, with its thickness. */
export interface StackLayer {
  readonly kind: LayerKind;
  readonly colour: ColourClass;
  /** m */
  readonly thickness: Property;
  /** True for a layer that has to survive (primer, zinc, anodise, chrome). */
  readonly mustStay: boolean;
}

/** Layers from the top down to the metal. */
export interface Stack {
  readonly layers: readonly StackLayer[];
  readonly metal: Metal;
  readonly metalThickness: Metre;
}

/** One stack of a mixture, with its share; shares add up to 1. A fully known stack is a mixture of one. */
export interface WeightedStack {
  readonly stack: Stack;
  readonly weight: number;
  /** What was assumed, in words; empty when nothing was. */
  readonly assumption: string;
}
