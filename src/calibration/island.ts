/** Versions of the truth: each a version of the physics with its shifts, scatters and effects. */
export interface Island {
  readonly count: number;
  /** which version of the physics */
  readonly draw: Int32Array;
  /** rows of standard normal coordinates, see `Layout` */
  readonly phi: Float64Array;
}

/** Prior of the shifts where an earlier job taught something: standard normal coordinates by place. */
export interface ShiftPrior {
  readonly mean: Float64Array;
  readonly spread: Float64Array;
}

export interface TemperOptions {
  /** patches that the particles know already; the rest is new */
  readonly known: number;
  readonly moves: number;
  /** particles to end with; the start may have more, so that a narrow posterior finds its first ones */
  readonly count: number;
}
