import { median } from "#numerics";
import { type Draw, type PatchPlan, predictPatch } from "#patch";
import type { Acceptance, Setting } from "#terms";
import { EDGE_SPAN, type PatchEdges, patchEdges } from "./patch-edges.ts";
import { type Ray, rayGroups, type RaySlopes } from "./ray.ts";

/** What is asked of every setting. */
export interface RaySource {
  readonly draws: readonly Draw[];
  readonly acceptance: Acceptance;
  /** lays out a setting; throws what the set-up cannot run */
  readonly planOf: (setting: Setting) => PatchPlan;
  /** m²/s */
  readonly rateOf: (setting: Setting) => number;
}

/** Versions of the physics that the slopes are read from. */
const SLOPE_DRAWS = 7;
/** Relative steps of speed, spot and thickness: about what a production day brings, and far above the tolerance of edges. */
const SPEED_STEP = 1.25;
const SPOT_STEP = 1.15;
const THICKNESS_STEP = 1.25;

/** Edges of the first `count` versions on one setting; `before`: a solved ray near by, which says where to look. */
export function edgesOf(source: RaySource, plan: PatchPlan, count: number, before?: Ray, lesser = true): PatchEdges[] {
  const found: PatchEdges[] = [];
  let offClean = 0;
  let offDamage = 0;
  for (let j = 0; j < count; j++) {
    const draw = source.draws[j]!;
    const near = before !== undefined && j < before.clean.length;
    const last = found[j - 1];
    const guess = near
      ? { clean: held(before.clean[j]! + offClean), damage: held(before.damage[j]! + offDamage) }
      : last === undefined
        ? { clean: 0, damage: 0 }
        : { clean: median(found.map((e) => e.clean)), damage: median(found.map((e) => e.damage)) };
    const at = (u: number) => predictPatch(draw, plan, source.acceptance, Math.exp(u));
    found.push(patchEdges(at, source.acceptance, guess, lesser));
    if (near && (j & 3) === 3) {
      offClean = median(found.map((e, k) => e.clean - before.clean[k]!));
      offDamage = median(found.map((e, k) => e.damage - before.damage[k]!));
    }
  }
  return found;
}

const held = (u: number): number => Math.max(-EDGE_SPAN, Math.min(EDGE_SPAN, u));

/**
 * Solves one ray: the edges of all versions of the physics by the product's own patch physics, and how they move with
 * speed, spot and thickness (median over a few versions of finite differences).
 *
 * Units: SI; edges ln of a power factor; `lesser` as in `patchEdges`. Range: a setting that the set-up runs. Errors: those of `planOf`.
 * Source: `patchEdges`; slopes by finite differences.
 */
export function solveRay(source: RaySource, setting: Setting, before?: Ray, lesser = true): Ray {
  const plan = source.planOf(setting);
  const edges = edgesOf(source, plan, source.draws.length, before, lesser);
  const column = (read: (e: PatchEdges) => number) => Float64Array.from(edges, read);
  return {
    setting,
    areaRate: source.rateOf(setting),
    groups: rayGroups(setting, plan.beam),
    half: column((e) => e.half),
    clean: column((e) => e.clean),
    melt: column((e) => e.melt),
    damage: column((e) => e.damage),
    slopes: slopesOf(source, setting, plan, edges),
  };
}

function slopesOf(source: RaySource, setting: Setting, plan: PatchPlan, edges: readonly PatchEdges[]): RaySlopes {
  // Versions whose edges lie in reach tell how they move; the others stand at the end of the span whatever is done.
  const inside = edges.flatMap((e, j) => (Math.abs(e.clean) < 2.5 && Math.abs(e.damage) < 2.5 ? [j] : []));
  const step = Math.max(1, Math.floor(inside.length / SLOPE_DRAWS));
  const chosen = inside.filter((_, k) => k % step === 0).slice(0, SLOPE_DRAWS);
  if (chosen.length === 0) return rough;
  const faster = source.planOf({ ...setting, speed: setting.speed * SPEED_STEP });
  const move = (alter: (draw: Draw) => Draw, at: PatchPlan, lnStep: number) => {
    const moved = chosen.map((j) => {
      const draw = alter(source.draws[j]!);
      const other = patchEdges(
        (u) => predictPatch(draw, at, source.acceptance, Math.exp(u)),
        source.acceptance,
        edges[j]!,
        false,
      );
      return { clean: (other.clean - edges[j]!.clean) / lnStep, damage: (other.damage - edges[j]!.damage) / lnStep };
    });
    return { clean: median(moved.map((m) => m.clean)), damage: median(moved.map((m) => m.damage)) };
  };
  const speed = move((d) => d, faster, Math.log(SPEED_STEP));
  const spot = move((d) => d.withBeam({ spotFactor: d.sample.spotFactor * SPOT_STEP }), plan, Math.log(SPOT_STEP));
  const thickness = move((d) => d.withThickness(THICKNESS_STEP), plan, Math.log(THICKNESS_STEP));
  return {
    clean: { speed: speed.clean, spot: spot.clean, thickness: thickness.clean },
    damage: { speed: speed.damage, spot: spot.damage, thickness: thickness.damage },
  };
}

/** Where no version has an edge in reach nothing depends on the slopes; these are those of a dose and of a fluence. */
const rough: RaySlopes = {
  clean: { speed: 1, spot: 1, thickness: 0.5 },
  damage: { speed: 1, spot: 1, thickness: 0 },
};
