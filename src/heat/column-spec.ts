/** What a layered column is made of, how it is lit and how finely it is solved. SI throughout. */

/** First-order Arrhenius decomposition dX/dt = A·exp(−E/(R·T))·(1 − X), taking up `heat` J per kg of layer. */
export interface ColumnDecomposition {
  /** 1/s */
  readonly preExponential: number;
  /** J/mol */
  readonly activationEnergy: number;
  /** J/kg, positive: endothermic */
  readonly heat: number;
}

/** Properties over temperature: straight between the points, constant outside. */
export interface ColumnTable {
  /** K, ascending */
  readonly temperature: Float64Array;
  /** W/(m·K) at those temperatures */
  readonly conductivity: Float64Array;
  /** J/(kg·K) at those temperatures */
  readonly heatCapacity: Float64Array;
}

/** What decomposed material leaves behind: it keeps the room of the layer; the rest of the mass leaves as hot gas. */
export interface ColumnChar {
  /** share of the mass that stays, 0..1; below 0.02 a cell that has decomposed to 98 % from the top leaves altogether */
  readonly fraction: number;
  /** 1/m, absorption of fully charred layer, per metre of the layer as it was */
  readonly absorption: number;
  /** W/(m·K) of fully charred layer */
  readonly conductivity: number;
  /** J/(kg·K) of the char that is left */
  readonly heatCapacity: number;
}

/** One layer. A `LayerSample` fits as it is. */
export interface ColumnLayer {
  /** m */
  readonly thickness: number;
  /** kg/m³ */
  readonly density: number;
  /** W/(m·K) */
  readonly conductivity: number;
  /** J/(kg·K) */
  readonly heatCapacity: number;
  /** replaces conductivity and heat capacity by tables; they then only set the default grid */
  readonly table?: ColumnTable | null;
  readonly decomposition: ColumnDecomposition | null;
  /** without it, decomposed material stays in place with the properties of the layer */
  readonly char?: ColumnChar | null;
  /** K at which the layer holds while it takes up `ablationHeat`, or null */
  readonly ablationTemperature: number | null;
  /** J/kg, or null */
  readonly ablationHeat: number | null;
}

/** The metal below the layers. A `MetalSample` fits as it is. */
export interface ColumnMetal {
  /** kg/m³ */
  readonly density: number;
  /** K, ascending */
  readonly temperature: Float64Array;
  /** W/(m·K) at those temperatures */
  readonly conductivity: Float64Array;
  /** J/(kg·K) at those temperatures */
  readonly heatCapacity: Float64Array;
  /** K */
  readonly meltingTemperature: number;
  /** J/kg */
  readonly latentHeatMelting: number;
  /** K */
  readonly boilingTemperature: number;
  /** J/kg */
  readonly latentHeatBoiling: number;
  /** m */
  readonly thickness: number;
}

/** Shares of the incident fluence; together at most 1, the rest is reflected. */
export interface ColumnLight {
  /** share taken by each layer cell, top to bottom (empty for bare metal) */
  readonly layerShares: Float64Array;
  /** share taken at the surface of the metal */
  readonly metalShare: number;
  /** share taken in a skin of no thickness at the outer surface of the top layer; 0 when left out */
  readonly topShare?: number;
}

/** How far a column has been taken down, for light that follows it. */
export interface ColumnProgress {
  /** s */
  readonly time: number;
  /** first cell that is still there */
  readonly firstCell: number;
  /** share decomposed of each layer cell, 0..1; read only, not to be kept */
  readonly conversion: Float64Array;
  /** m, width of each cell as it is now: the one at the surface grows thinner, or was joined to the next */
  readonly width: Float64Array;
}

/** Light for a grid: asked at the start without progress, and again after every `lightStep` with it. */
export type LightHook = (grid: ColumnGrid, progress?: ColumnProgress) => ColumnLight;

/** Power over time. "gaussian" has `duration` as full width at half maximum and peaks at 1.5 durations. */
export interface ColumnPulse {
  /** J/m², incident */
  readonly fluence: number;
  /** s; for a table: the time scale of its shortest feature */
  readonly duration: number;
  /** a table holds times from 0 (s) and relative powers, joined by straight lines */
  readonly shape: "square" | "gaussian" | { readonly time: Float64Array; readonly power: Float64Array };
}

/** Grid knobs; the defaults give about 100 cells for two layers. */
export interface GridOptions {
  /** cells in each layer */
  readonly layerCells?: number;
  /** cells in the metal */
  readonly metalCells?: number;
  /** m, first cell at each face of a layer; default: a third of √(D·duration) */
  readonly layerFirstCell?: number;
  /** m, first cell of the metal; default: a fortieth of √(D·duration), so that melting is not counted in coarse steps */
  readonly metalFirstCell?: number;
  /** m, depth of metal that is solved; default: what heat can reach by the end time, at most the plate */
  readonly metalDepth?: number;
}

/** Error control. */
export interface StepOptions {
  /** K, absolute tolerance per step; default 0.5 */
  readonly absoluteTolerance?: number;
  /** relative tolerance per step on the heat taken up; default 2e-3 */
  readonly relativeTolerance?: number;
  /** s, step below which the error is no longer asked for; default an eightieth of the pulse, or of the time since its last duration */
  readonly minimumStep?: number;
  /** s, largest step; default none */
  readonly maximumStep?: number;
  /** s, every step has this length and no error is controlled (for convergence studies) */
  readonly fixedStep?: number;
}

export interface ColumnSpec {
  /** top to bottom; may be empty */
  readonly layers: readonly ColumnLayer[];
  readonly metal: ColumnMetal;
  /** what falls on cells that have left is taken by the first that is still there: give `lightStep` where cells leave */
  readonly light: ColumnLight | LightHook;
  /** m of layer decomposed or gone after which a light hook is asked again, as whenever a cell leaves; default: never */
  readonly lightStep?: number;
  /** whether material leaves whose latent heat of boiling or ablation is paid; default true */
  readonly recession?: boolean;
  readonly pulse: ColumnPulse;
  /** K */
  readonly startTemperature: number;
  /** s */
  readonly endTime: number;
  /** K per cell, instead of the uniform start temperature */
  readonly startProfile?: Float64Array;
  /** K, surface temperatures of the metal whose times above are asked for */
  readonly thresholds?: readonly number[];
  /** s, ascending, up to the end time: moments at which the whole column is kept */
  readonly snapshotTimes?: readonly number[];
  readonly grid?: GridOptions;
  readonly steps?: StepOptions;
}

/** The column at one moment. */
export interface ColumnSnapshot {
  /** s */
  readonly time: number;
  /** first cell that is still there; those above it have left and their temperatures mean nothing */
  readonly firstCell: number;
  /** K per cell, straight between the steps around the moment */
  readonly temperature: Float64Array;
  /** share decomposed of each layer cell, 0..1, at the end of the step that the moment lies in */
  readonly conversion: Float64Array;
}

/** Cells from the outer surface (z = 0) down. */
export interface ColumnGrid {
  /** m, cell edges, length `count + 1` */
  readonly edges: Float64Array;
  /** cells in the layers together; the metal starts at this cell */
  readonly layerCount: number;
  /** all cells */
  readonly count: number;
  /** index of the layer of each layer cell */
  readonly layerOf: Int32Array;
}

/** Where the heat went, J/m²; stored + reaction + carried = absorbed but for `energyBalanceError`. */
export interface ColumnEnergy {
  readonly absorbed: number;
  /** above the start, in what is still there */
  readonly stored: number;
  /** heat of decomposition */
  readonly reaction: number;
  /** above the start, in the material that left, latent heat included */
  readonly carried: number;
}

export interface ColumnResult {
  readonly grid: ColumnGrid;
  /** K per layer cell, the highest over time */
  readonly layerPeak: Float64Array;
  /** K, highest temperature of the outer surface */
  readonly topPeak: number;
  /** K, highest temperature where the lowest layer touches the metal; of the bare surface without layers */
  readonly interfacePeak: number;
  /** K, highest temperature of the lowest layer cell; the interface peak without layers */
  readonly layerBottomPeak: number;
  /** K, highest temperature of the metal surface (perfect contact: equal to the interface) */
  readonly metalSurfacePeak: number;
  /** share of each layer cell decomposed, 0..1 */
  readonly conversion: Float64Array;
  /** largest share of the ablation heat that each layer cell took up, 0..1 */
  readonly ablated: Float64Array;
  /** m, largest depth below the original metal surface that was liquid or gone, over time */
  readonly meltDepth: number;
  /** m, largest thickness of metal boiled or gone, over time */
  readonly boiledDepth: number;
  /** m, thickness that left from the top, layers and metal, with the paid share of the cell at the surface */
  readonly recession: number;
  /** cells that left from the top */
  readonly goneCells: number;
  /** how often a light hook was asked again */
  readonly lightUpdates: number;
  readonly energy: ColumnEnergy;
  /** s and K: history of the interface (metal surface) */
  readonly interfaceTime: Float64Array;
  readonly interfaceTemperature: Float64Array;
  /** s above each of the thresholds at the metal surface */
  readonly timeAbove: Float64Array;
  /** one per moment asked for */
  readonly snapshots: readonly ColumnSnapshot[];
  /** K per cell at the end time */
  readonly finalTemperature: Float64Array;
  /** |stored + reaction + carried − absorbed| / absorbed */
  readonly energyBalanceError: number;
  readonly steps: number;
  readonly rejectedSteps: number;
  readonly newtonIterations: number;
}
