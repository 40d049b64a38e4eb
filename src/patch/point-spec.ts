import type { LawTable } from "#removal";

/** Adhesion from place to place: eight equal shares of area, weakest first (standard normal quantiles). */
export const CLASSES: readonly number[] = [
  -1.5341205443525463, -0.887146559018876, -0.4887764111146695, -0.1573106846101707, 0.1573106846101707,
  0.4887764111146695, 0.887146559018876, 1.5341205443525463,
];
export const CLASS_COUNT = CLASSES.length;

/** What the history of a point depends on besides where the events fall. */
export interface PointSpec {
  readonly law: LawTable;
  /** J/m² at the spot's centre */
  readonly fluence: number;
  readonly profile: "gaussian" | "top-hat";
  /** continuous line over a flat-top spot: the chord decides the fluence */
  readonly lineEvents: boolean;
  readonly passes: number;
  /** m */
  readonly thickness: number;
  readonly residueThickness: number;
  readonly adhesionScatter: number;
  /** exponent S of F_N = F_1·N^(S−1) */
  readonly incubation: number;
  /** s between two events of one line at a point, and between the same place on two lines */
  readonly pulseGap: number;
  readonly lineGap: number;
  /** how many real events each listed event stands for */
  readonly multiplicity: number;
  /** J/m² from which the plume of a pulse shades the surface; left out for a beam that stays on */
  readonly plume?: number;
}
