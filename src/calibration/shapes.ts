import type { Ray } from "#edges";
import { createRandom } from "#numerics";
import type { SourceKind } from "#terms";

/**
 * The shapes in which the physics may be off: each moves an edge (ln power) by its spread times a standard normal number
 * times the shape, so that a misfit can only look like something that nature does.
 */
export interface ShiftShape {
  readonly name: string;
  readonly edge: "removal" | "damage";
  /** part of the smooth rest, which no law of one group stands behind */
  readonly rest?: true;
  /** ln power per unit of the shape */
  readonly spread: number;
  /** shape on a ray with its power at exp(x) of the full one; `thickness`: ln of a patch's coat over the usual one */
  readonly shape: (ray: Ray, x: number, thickness: number, from: Reference) => number;
}

/** Groups at which all shapes but the level are 0, natural logarithms of SI values. */
export interface Reference {
  readonly time: number;
  readonly count: number;
  readonly spot: number;
  /** line spacing over spot */
  readonly spacing: number;
  readonly dose: number;
  readonly power: number;
}

const references: Readonly<Record<SourceKind, Reference>> = {
  pulsed: {
    time: Math.log(100e-9),
    count: Math.log(10),
    spot: Math.log(100e-6),
    spacing: Math.log(0.4),
    dose: Math.log(5e4),
    power: Math.log(150),
  },
  continuous: {
    time: Math.log(0.1e-3),
    count: Math.log(4),
    spot: Math.log(400e-6),
    spacing: Math.log(0.4),
    dose: Math.log(1e6),
    power: Math.log(1000),
  },
};

/** Where the shapes of a kind of source are anchored (own choice: the middle of what is used). */
export function referenceOf(kind: SourceKind): Reference {
  return references[kind];
}

type GroupName = Exclude<keyof Reference, "dose" | "power">;

/** A shape that grows with one group from its reference. */
const withGroup =
  (name: GroupName): ShiftShape["shape"] =>
  (ray, _x, _t, from) =>
    ray.groups[name] - from[name];
const withPasses: ShiftShape["shape"] = (ray) => ray.groups.passes;
const withPower: ShiftShape["shape"] = (ray, x, _t, from) => ray.groups.power + x - from.power;

/** Waves per edge that stand for what no law of one group says, and the spread of their sum, ln power. */
const WAVES = 5;
const REST = 0.1;
/** Differences in ln time, count, passes, spot and spacing over which that rest stays much the same. */
const ALIKE = [1, 1, 1, 0.7, 0.5] as const;

/**
 * Smooth random surfaces over the groups: the rest of the misfit, which has no law of its own.
 *
 * Equation: √(2/m)·cos(ω·(g − g₀) + b), ω normal with spread 1/ALIKE, b even over a turn, fixed once for all; over many
 * m the sum of such shapes times standard normal numbers becomes a Gaussian process of unit variance and Gaussian kernel.
 * Units: groups ln of SI values; the shape 1, its spread ln power. Range: any groups. Errors: none.
 * Source: Rahimi and Recht, Random features for large-scale kernel machines, NIPS 2007.
 */
function restShapes(edge: "removal" | "damage", stream: number): ShiftShape[] {
  const random = createRandom(1009).substream(stream);
  return Array.from({ length: WAVES }, (_, k): ShiftShape => {
    const omega = ALIKE.map((a) => random.normal() / a);
    const phase = 2 * Math.PI * random.next();
    return {
      name: `${edge}, rest ${k + 1}`,
      edge,
      rest: true,
      spread: REST * Math.sqrt(2 / WAVES),
      shape: ({ groups: g }, _x, _t, from) =>
        Math.cos(
          omega[0]! * (g.time - from.time) +
            omega[1]! * (g.count - from.count) +
            omega[2]! * g.passes +
            omega[3]! * (g.spot - from.spot) +
            omega[4]! * (g.spacing - from.spacing) +
            phase,
        ),
    };
  });
}

/**
 * Shapes and spreads of the misfit. Spreads are shrunken priors, own choice after docs/decisions/0010: exponents of
 * thresholds in time, count, spot, dose and mean power that published laws differ by from one to the next, and a smooth rest.
 */
export const shiftShapes: readonly ShiftShape[] = [
  { name: "removal threshold", edge: "removal", spread: 0.25, shape: () => 1 },
  { name: "removal with pulse width or dwell", edge: "removal", spread: 0.2, shape: withGroup("time") },
  { name: "removal with events per point (incubation)", edge: "removal", spread: 0.15, shape: withGroup("count") },
  { name: "removal with passes", edge: "removal", spread: 0.2, shape: withPasses },
  { name: "removal with spot (its shape)", edge: "removal", spread: 0.3, shape: withGroup("spot") },
  { name: "removal with line spacing (its shape)", edge: "removal", spread: 0.2, shape: withGroup("spacing") },
  {
    name: "removal with dose (plume)",
    edge: "removal",
    spread: 0.25,
    shape: (ray, x, _t, from) => ray.groups.dose + x - from.dose,
  },
  { name: "removal with mean power (warming)", edge: "removal", spread: 0.15, shape: withPower },
  { name: "removal with thickness", edge: "removal", spread: 0.4, shape: (_ray, _x, thickness) => thickness },
  ...restShapes("removal", 1),
  { name: "damage threshold", edge: "damage", spread: 0.25, shape: () => 1 },
  { name: "damage with pulse width or dwell", edge: "damage", spread: 0.15, shape: withGroup("time") },
  { name: "damage with events per point (incubation)", edge: "damage", spread: 0.1, shape: withGroup("count") },
  { name: "damage with passes", edge: "damage", spread: 0.15, shape: withPasses },
  { name: "damage with spot (its shape)", edge: "damage", spread: 0.3, shape: withGroup("spot") },
  { name: "damage with line spacing (its shape)", edge: "damage", spread: 0.1, shape: withGroup("spacing") },
  { name: "damage with mean power (warming)", edge: "damage", spread: 0.2, shape: withPower },
  ...restShapes("damage", 2),
];

/** Names of the shifts, in the order of the posterior's coordinates. */
export const shiftNames: readonly string[] = shiftShapes.map((s) => s.name);
export const removalShapes: readonly ShiftShape[] = shiftShapes.filter((s) => s.edge === "removal");
export const damageShapes: readonly ShiftShape[] = shiftShapes.filter((s) => s.edge === "damage");

/**
 * Spreads times shapes of one edge on a ray: the row that, times the standard normal shifts, moves the edge.
 * Units: result ln power per unit of each shift. Range: x ln power factor. Errors: none. Source: `ShiftShape`.
 */
export function shapeRow(
  shapes: readonly ShiftShape[],
  ray: Ray,
  x: number,
  thickness: number,
  from: Reference,
): Float64Array {
  return Float64Array.from(shapes, (s) => s.spread * s.shape(ray, x, thickness, from));
}
