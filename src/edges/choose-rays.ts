import { createRandom } from "#numerics";
import type { Setting } from "#terms";
import type { PatchEdges } from "./patch-edges.ts";

/** A quick look at one setting: its edges in a few versions of the physics. */
export interface RayLook {
  readonly setting: Setting;
  /** m²/s */
  readonly areaRate: number;
  readonly edges: readonly PatchEdges[];
}

/** ln of the lowest power that is worth setting, as a share of the full one. */
export const LEVEL_LOWEST = Math.log(0.15);
/** ln power that a window must leave between its edges to be of use under drift. */
const ROOM = 0.2;
/** How far the physics may be off, ln power: every version is also tried with its edges moved. */
const OFF = 0.25;
const MOVES = 10;

/**
 * Picks the rays to solve in full: in turn the one that adds most to the best rate over the versions of the physics, each
 * also with its edges moved by what the physics may be off, so that every version has its fast settings on the list; what
 * is left of `count` goes to the rays nearest to having a window, the fast ones before the slow. The same input gives the same pick.
 *
 * Equation: gain(r) = Σ_v max(0, V_rv − best_v)/V_v, V_rv = rate·min(1, room/0.2), room = min(damage, 0) − max(clean, ln 0.15).
 * Units: rates m²/s, edges ln power. Range: any looks over the same versions. Errors: none. Source: own rule (greedy cover).
 */
export function chooseRays(looks: readonly RayLook[], count: number, seed: number): number[] {
  if (looks.length === 0) return [];
  const random = createRandom(seed);
  const moves = looks[0]!.edges.flatMap((_, version) =>
    Array.from({ length: MOVES }, (__, k) => ({
      version,
      clean: k === 0 ? 0 : OFF * random.normal(),
      damage: k === 0 ? 0 : OFF * random.normal(),
    })),
  );
  const rooms = looks.map((look) =>
    moves.map((m) => {
      const { clean, damage } = look.edges[m.version]!;
      return Math.min(damage + m.damage, 0) - Math.max(clean + m.clean, LEVEL_LOWEST);
    }),
  );
  const values = looks.map((look, r) => rooms[r]!.map((room) => look.areaRate * Math.max(0, Math.min(1, room / ROOM))));
  const most = moves.map((_, v) => Math.max(...values.map((row) => row[v]!)));
  const best = moves.map(() => 0);
  const chosen: number[] = [];
  const taken = new Set<number>();
  while (chosen.length < count) {
    let pick = -1;
    let gain = 1e-3 * moves.length;
    for (let r = 0; r < looks.length; r++) {
      if (taken.has(r)) continue;
      let sum = 0;
      const row = values[r]!;
      for (let v = 0; v < moves.length; v++) {
        const more = row[v]! - best[v]!;
        if (more > 0) sum += more / most[v]!;
      }
      if (sum > gain) {
        gain = sum;
        pick = r;
      }
    }
    if (pick < 0) break;
    chosen.push(pick);
    taken.add(pick);
    values[pick]!.forEach((value, v) => {
      if (value > best[v]!) best[v] = value;
    });
  }
  const nearness = rooms.map(
    (row, r) => Math.sqrt(looks[r]!.areaRate) * row.reduce((sum, room) => sum + 1 / (1 + Math.exp(-room / ROOM)), 0),
  );
  const rest = looks.map((_, r) => r).filter((r) => !taken.has(r));
  rest.sort((a, b) => nearness[b]! - nearness[a]!);
  return [...chosen, ...rest.slice(0, Math.max(0, count - chosen.length))];
}
