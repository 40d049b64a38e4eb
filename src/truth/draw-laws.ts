import type { RandomStream } from "#numerics";
import type { LaserSetup } from "#terms";

/**
 * The laws of one invented world. Every number here, and every spread below, is invented: sensible in size, taken from no
 * measurement, and of another form than the product's physics (power laws of thresholds, no conduction).
 *
 * Warming, the longest useful stay and the time exponent of lines were set again after a look at how far these worlds part
 * from the product's edges away from the reference (0.3 to 1.1 in ln power before), so that they differ in form but not by
 * leaving out what every plate does. Figures of a study on them lean towards the product by that much.
 */
export interface LayerLaw {
  /** true: eaten away, every event takes its share and doses add up; false: thrown off as a whole by the strongest event */
  readonly eaten: boolean;
  /** threshold grows with (thickness/nominal)^thicknessExponent */
  readonly thicknessExponent: number;
  /** thrown off: threshold falls with events^countExponent (S − 1) */
  readonly countExponent: number;
  /** eaten: doses add up as (strength)^dosePower */
  readonly dosePower: number;
  /** ln strength by which a point goes from covered to clean */
  readonly width: number;
}

export interface WorldLaws {
  /** outermost first; one or two */
  readonly layers: readonly LayerLaw[];
  /** ln power by which the other layer comes off before the one that decides at the reference; 0 with one layer */
  readonly layerLead: number;
  /** 1: the upper layer decides at the reference, 0: the lower */
  readonly upperDecides: number;
  readonly removalTimeExponent: number;
  readonly damageTimeExponent: number;
  readonly damageCountExponent: number;
  /** thresholds ∝ spot^exponent */
  readonly removalSpotExponent: number;
  readonly damageSpotExponent: number;
  /** order of the super-Gaussian, share and width (in spot radii) of the ring around it */
  readonly spotOrder: number;
  readonly ringShare: number;
  readonly ringWidth: number;
  /** ln strength (pulses: of J/m²; lines: of W/m²) above which the plume shades, and the share of ln strength that is left */
  readonly lnPlume: number;
  readonly plumeSlope: number;
  /**
   * Warming, up to a ln by which both thresholds fall at most: half of it at this dose on the plate (J/m², all passes), or
   * at this load of the spot by the mean power, P/d²·√(d/v) (W·√s/m²; infinite for a beam that stays on: it is the load)
   */
  readonly warmingDose: number;
  readonly warmingLoad: number;
  readonly warmingMost: number;
  /** m²/s: a spot that stays longer than d²/spread gains no more from staying */
  readonly spread: number;
  /** share that each further pass counts */
  readonly passEffect: number;
  /** shift of pulses from line to line and from pass to pass, share of the pitch */
  readonly linePhase: number;
  readonly passPhase: number;
  /** ln spreads: of the removal and the damage threshold per plate; per patch; of thickness per patch */
  readonly plateRemoval: number;
  readonly plateDamage: number;
  readonly patchOwn: number;
  readonly patchThickness: number;
  /** ln spread of residue readings, their additive spread, ln bias per grader, share of grades that are simply wrong */
  readonly readingSpread: number;
  readonly readingFloor: number;
  readonly graderSpread: number;
  readonly misgraded: number;
}

const EATEN_SHARE = 0.3;

function drawLayer(random: RandomStream, eaten: boolean): LayerLaw {
  // Eaten: twice the thickness needs twice the dose, so the exponents of thickness and of dose are one number.
  const thicknessExponent = eaten ? 0.3 + 0.6 * random.next() ** 2 : 0.3 * random.next();
  return {
    eaten,
    thicknessExponent,
    countExponent: Math.max(-0.2, Math.min(0, -0.06 + 0.04 * random.normal())),
    dosePower: 1 / Math.max(0.3, thicknessExponent),
    width: eaten ? 0.1 + 0.15 * random.next() : 0.02 + 0.06 * random.next(),
  };
}

/** Draws the laws of a world; the same stream gives the same laws. Removal and damage thresholds come from the anchor. */
export function drawLaws(random: RandomStream, setup: LaserSetup, layers: 1 | 2): WorldLaws {
  const pulsed = setup.kind === "pulsed";
  const eaten = random.next() < EATEN_SHARE;
  const first = drawLayer(random, eaten);
  const second = drawLayer(random, !eaten);
  const plateThickness = 1.5e-3 + 6.5e-3 * random.next();
  const order = random.next();
  return {
    layers: layers === 1 ? [first] : [first, second],
    layerLead: layers === 1 ? 0 : Math.abs(0.25 * random.normal()),
    upperDecides: layers === 2 && random.next() < 0.3 ? 1 : 0,
    // A line warms a thin coat like a surface (½) and soaks a thick one like a dose (1); worlds lie between.
    removalTimeExponent: pulsed ? 0.35 + 0.15 * random.normal() : 0.75 + 0.12 * random.normal(),
    damageTimeExponent: pulsed ? 0.5 + 0.08 * random.normal() : 0.5 + 0.1 * random.normal(),
    damageCountExponent: Math.max(-0.1, Math.min(0, -0.03 + 0.02 * random.normal())),
    removalSpotExponent: 0.06 * random.normal(),
    damageSpotExponent: 0.06 * random.normal(),
    spotOrder: setup.profile === "top-hat" ? 3 + 3 * order : 2 + 4 * order * order,
    ringShare: 0.02 + 0.1 * random.next(),
    ringWidth: 1.3 + 0.4 * random.next(),
    lnPlume: Math.log(pulsed ? 8e4 : 1.5e10) + 0.5 * random.normal(),
    plumeSlope: 0.65 + 0.3 * random.next(),
    // A thin plate holds less heat; a line leaves more of it behind than pulses do.
    warmingDose: (pulsed ? 1.5e10 : 1e10) * plateThickness * Math.exp(0.4 * random.normal()),
    warmingLoad: pulsed ? 6e7 * Math.exp(0.4 * random.normal()) : Number.POSITIVE_INFINITY,
    warmingMost: 1.4 + 0.8 * random.next(),
    spread: 1e-4 * Math.exp(0.5 * random.normal()),
    passEffect: 0.4 + 0.6 * random.next(),
    linePhase: 0.5 * random.next(),
    passPhase: 0.5 * random.next(),
    plateRemoval: 0.06,
    plateDamage: 0.03,
    patchOwn: 0.04,
    patchThickness: 0.15,
    readingSpread: 0.2,
    readingFloor: 0.01,
    graderSpread: 0.1,
    misgraded: 0.02,
  };
}

/** The laws as one flat list of named numbers, for the record. */
export function namedLaws(laws: WorldLaws): Record<string, number> {
  const { layers, ...rest } = laws;
  const named: Record<string, number> = { ...rest };
  layers.forEach((layer, i) => {
    const name = layers.length === 1 ? "coat" : i === 0 ? "upper" : "lower";
    for (const [key, value] of Object.entries(layer)) named[`${name}.${key}`] = Number(value);
  });
  return named;
}
