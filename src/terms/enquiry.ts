import type { WeightedStack } from "./material.ts";
import type { Kelvin, Metre, Ratio, SquareMetre } from "./quantities.ts";

export type FaceKind = "flat" | "convex" | "concave" | "edge" | "hole" | "weld-bead";
export interface Face {
  readonly kind: FaceKind;
  /** m, radius of a curved face or hole; null for flat faces, edges, beads */
  readonly radius: Metre | null;
  readonly note: string;
}

/** 0 unchanged, 1 discoloured, 2 micro-melted, 3 melted, 4 distorted. */
export type MetalConditionGrade = 0 | 1 | 2 | 3 | 4;

/** Tests that customers ask for after cleaning. */
export type AcceptanceTestKind =
  | "profile"
  | "salts"
  | "dust"
  | "water-break"
  | "pull-off"
  | "cross-cut"
  | "contact-resistance"
  | "hardness"
  | "weld-porosity"
  | "dimension-loss"
  | "flash-rust";

export interface AcceptanceTest {
  readonly kind: AcceptanceTestKind;
  /** standard or method, for example "ISO 4624" */
  readonly method: string;
  /** limit in words with its unit, for example "at least 5 MPa" */
  readonly limit: string;
  /** measured value in words, null when not measured */
  readonly value: string | null;
  readonly passed: boolean | null;
}

export interface Acceptance {
  /** largest share of area with residue (definition of residueFraction) */
  readonly residueMax: Ratio;
  readonly metalConditionMax: MetalConditionGrade;
  /** largest metal temperature, or null when not limited */
  readonly metalTemperatureMax: Kelvin | null;
  readonly tests: readonly AcceptanceTest[];
  /** share of posterior draws in which the recommended setting must hold, default 0.8; 0.95 for thin or costly parts */
  readonly confidence: Ratio;
}

export interface SiteLimits {
  /** only these deliveries are possible; empty means any */
  readonly deliveries: readonly ("scanner" | "hand" | "robot")[];
  /** VA of electrical supply, or null */
  readonly electricalPowerMax: number | null;
  /** W of mean laser power allowed, or null */
  readonly laserPowerMax: number | null;
  readonly enclosed: boolean | null;
  readonly note: string;
}

export type Knowledge = "yes" | "no" | "unknown";

/** One part of an enquiry, resolved against the library. SI. */
export interface PartEnquiry {
  readonly id: string;
  readonly name: string;
  readonly material: string;
  /** null when the part is no metal (then it is declined) */
  readonly mixture: readonly WeightedStack[];
  readonly area: SquareMetre;
  readonly count: number;
  readonly faces: readonly Face[];
  readonly acceptance: Acceptance;
  /** m²/s wanted, or null */
  readonly rateWanted: number | null;
  readonly lead: Knowledge;
  readonly chromate: Knowledge;
  /** things said to be unknown, in words ("layer kind", "thickness", "lead content") */
  readonly unknowns: readonly string[];
  /** what was assumed where the file said nothing or "unknown", one sentence each */
  readonly assumptions?: readonly string[];
}

export interface Enquiry {
  readonly id: string;
  readonly title: string;
  readonly customer: string;
  readonly invented: boolean;
  readonly site: SiteLimits;
  readonly parts: readonly PartEnquiry[];
  readonly note: string;
}
