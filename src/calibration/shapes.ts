import type { Ray } from "#edges";
import type { SourceKind } from "#terms";

/**
 * The shapes in which the physics may be off: each moves an edge (ln power) by its spread times a standard normal number
 * times the shape, so that a misfit can only look like something that nature does.
 */
export interface ShiftShape {
  readonly name: string;
  readonly edge: "removal" | "damage";
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
  readonly dose: number;
  readonly power: number;
}

const references: Readonly<Record<SourceKind, Reference>> = {
  pulsed: {
    time: Math.log(100e-9),
    count: Math.log(10),
    spot: Math.log(100e-6),
    dose: Math.log(5e4),
    power: Math.log(150),
  },
  continuous: {
    time: Math.log(0.1e-3),
    count: Math.log(4),
    spot: Math.log(400e-6),
    dose: Math.log(1e6),
    power: Math.log(1000),
  },
};

/** Where the shapes of a kind of source are anchored (own choice: the middle of what is used). */
export function referenceOf(kind: SourceKind): Reference {
  return references[kind];
}

/**
 * Shapes and spreads of the misfit. Spreads are shrunken priors, own choice after ../docs/decisions/0010: exponents of
 * thresholds in time, count, spot, dose and mean power that published laws differ by from one to the next.
 */
export const shiftShapes: readonly ShiftShape[] = [
  { name: "removal threshold", edge: "removal", spread: 0.2, shape: () => 1 },
  {
    name: "removal with pulse width or dwell",
    edge: "removal",
    spread: 0.2,
    shape: (ray, _x, _t, from) => ray.groups.time - from.time,
  },
  {
    name: "removal with events per point (incubation)",
    edge: "removal",
    spread: 0.1,
    shape: (ray, _x, _t, from) => ray.groups.count - from.count,
  },
  { name: "removal with passes", edge: "removal", spread: 0.15, shape: (ray) => ray.groups.passes },
  {
    name: "removal with spot (its shape)",
    edge: "removal",
    spread: 0.2,
    shape: (ray, _x, _t, from) => ray.groups.spot - from.spot,
  },
  {
    name: "removal with dose (plume)",
    edge: "removal",
    spread: 0.2,
    shape: (ray, x, _t, from) => ray.groups.dose + x - from.dose,
  },
  {
    name: "removal with mean power (warming)",
    edge: "removal",
    spread: 0.08,
    shape: (ray, x, _t, from) => ray.groups.power + x - from.power,
  },
  { name: "removal with thickness", edge: "removal", spread: 0.4, shape: (_ray, _x, thickness) => thickness },
  { name: "damage threshold", edge: "damage", spread: 0.2, shape: () => 1 },
  {
    name: "damage with pulse width or dwell",
    edge: "damage",
    spread: 0.15,
    shape: (ray, _x, _t, from) => ray.groups.time - from.time,
  },
  {
    name: "damage with events per point (incubation)",
    edge: "damage",
    spread: 0.06,
    shape: (ray, _x, _t, from) => ray.groups.count - from.count,
  },
  { name: "damage with passes", edge: "damage", spread: 0.08, shape: (ray) => ray.groups.passes },
  {
    name: "damage with spot (its shape)",
    edge: "damage",
    spread: 0.2,
    shape: (ray, _x, _t, from) => ray.groups.spot - from.spot,
  },
  {
    name: "damage with mean power (warming)",
    edge: "damage",
    spread: 0.12,
    shape: (ray, x, _t, from) => ray.groups.power + x - from.power,
  },
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
