import { layerKind, metal, setup } from "#library";
import type { ColourClass, LaserSetup, PartEnquiry } from "#terms";
import type { WorldKind } from "#truth";

/** One job of the study: a part, a set-up, and how many layers lie on it. Everything about the parts is invented. */
export interface Scenario {
  readonly id: string;
  readonly part: PartEnquiry;
  readonly setup: LaserSetup;
  readonly layers: 1 | 2;
  /** m, whole coat */
  readonly nominalThickness: number;
}

/** Layer kind, colour and thickness in µm, outermost first. */
type Coat = readonly (readonly [kind: string, colour: ColourClass, thickness: number])[];

/** Thickness as gauged on a few places: 15 % either way. Invented. */
const GAUGED = 0.15;
const METAL_THICKNESS = 5e-3;

function scenario(setupId: string, metalId: string, coat: Coat): Scenario {
  const layers = coat.map(([kindId, colour, micrometres]) => {
    const kind = layerKind(kindId);
    const value = micrometres * 1e-6;
    const thickness = { ...kind.usualThickness, value, low: value * (1 - GAUGED), high: value * (1 + GAUGED) };
    return { kind, colour, thickness, mustStay: false };
  });
  const id = `${setupId}-${metalId}-${coat.length === 1 ? "one-layer" : "two-layers"}`;
  return {
    id,
    setup: setup(setupId),
    layers: coat.length === 1 ? 1 : 2,
    nominalThickness: coat.reduce((sum, [, , micrometres]) => sum + micrometres * 1e-6, 0),
    part: {
      id,
      name: `study part ${id}`,
      material: metalId,
      mixture: [
        { weight: 1, assumption: "", stack: { metal: metal(metalId), metalThickness: METAL_THICKNESS, layers } },
      ],
      area: 2,
      count: 10,
      faces: [],
      acceptance: { residueMax: 0.05, metalConditionMax: 2, metalTemperatureMax: null, tests: [], confidence: 0.8 },
      rateWanted: null,
      lead: "no",
      chromate: "no",
      unknowns: [],
    },
  };
}

/**
 * The jobs of the study, one and two layers in turn, each with a machine that the comparison of the product would send to
 * a trial: weaker ones, which clean less than 0.1 m²/h in most versions of the physics, were taken out after a first look.
 */
export const scenarios: readonly Scenario[] = [
  scenario("pulsed-500", "stainless-304", [["acrylic", "mid", 15]]),
  scenario("pulsed-500", "steel-low-carbon", [
    ["alkyd", "mid", 30],
    ["epoxy-primer", "mid", 15],
  ]),
  scenario("continuous-1500", "stainless-304", [["alkyd", "white", 35]]),
  scenario("continuous-1500", "steel-low-carbon", [
    ["polyurethane-topcoat", "mid", 45],
    ["epoxy-primer", "mid", 30],
  ]),
  scenario("pulsed-500", "aluminium-5083", [["polyurethane-topcoat", "mid", 40]]),
  scenario("pulsed-500", "aluminium-5083", [
    ["polyurethane-topcoat", "white", 40],
    ["epoxy-primer", "mid", 20],
  ]),
  scenario("continuous-1500", "aluminium-5083", [["polyurethane-topcoat", "white", 25]]),
  scenario("continuous-1500", "stainless-304", [
    ["acrylic", "white", 18],
    ["epoxy-primer", "white", 12],
  ]),
];

/** Truths go round the scenarios; of 20 on one scenario 14 are as anchored, 3 narrow, and in 3 nothing works. */
const ROUND = 20;
const AS_ANCHORED = 14;
const NARROW = 3;

/** Kind of the truth with this number (0, 1, 2 …): 70, 15 and 15 % on every scenario, mixed from the start. */
export function worldMix(index: number): WorldKind {
  const turn = Math.floor(index / scenarios.length);
  const place = index % scenarios.length;
  const at = (7 * turn + 3 * place) % ROUND;
  return at < AS_ANCHORED ? "as anchored" : at < AS_ANCHORED + NARROW ? "narrow" : "nothing works";
}
