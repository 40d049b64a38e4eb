import type { PlanCandidate, Region } from "./candidates.ts";
import { farthestPoint } from "./maximin.ts";

/**
 * How many of `count` settings each region should get: a third near each predicted edge, the rest split between
 * inside and outside. Source: own choice after the trial study.
 */
export function regionQuotas(count: number): Readonly<Record<Region, number>> {
  const edge = Math.round(count / 3);
  const rest = Math.max(0, count - 2 * edge);
  const inside = Math.ceil(rest / 2);
  return { "clean edge": edge, "damage edge": Math.min(edge, count - edge), inside, outside: rest - inside };
}

const regions: readonly Region[] = ["clean edge", "damage edge", "inside", "outside"];

/**
 * Chooses `count` candidates beside those chosen already: region by region in turn, each time the one farthest from
 * all chosen; what a region cannot give goes to the others, edges first. Fewer when the candidates run out.
 */
export function chooseSpread(
  candidates: readonly PlanCandidate[],
  already: readonly PlanCandidate[],
  count: number,
): PlanCandidate[] {
  const chosen = [...already];
  const taken = new Set(already);
  const left = { ...regionQuotas(count + already.length) };
  for (const candidate of already) left[candidate.region]--;
  const points = candidates.map((c) => c.point);
  const take = (allowed: (candidate: PlanCandidate) => boolean): boolean => {
    const index = farthestPoint(
      points,
      chosen.map((c) => c.point),
      (i) => !taken.has(candidates[i]!) && allowed(candidates[i]!),
    );
    if (index < 0) return false;
    chosen.push(candidates[index]!);
    taken.add(candidates[index]!);
    return true;
  };
  const goal = count + already.length;
  for (let moved = true; moved && chosen.length < goal; ) {
    moved = false;
    for (const region of regions) {
      if (chosen.length >= goal || left[region] <= 0) continue;
      if (take((c) => c.region === region)) {
        left[region]--;
        moved = true;
      }
    }
  }
  for (const region of regions) while (chosen.length < goal && take((c) => c.region === region));
  return chosen.slice(already.length);
}

/** Chooses `count` candidates, each time the one farthest from all chosen. Fewer when the candidates run out. */
export function chooseFarthest(
  candidates: readonly PlanCandidate[],
  already: readonly PlanCandidate[],
  count: number,
): PlanCandidate[] {
  const points = candidates.map((c) => c.point);
  const taken = new Set(already);
  const chosen = already.map((c) => c.point);
  const added: PlanCandidate[] = [];
  while (added.length < count) {
    const index = farthestPoint(points, chosen, (i) => !taken.has(candidates[i]!));
    if (index < 0) break;
    added.push(candidates[index]!);
    taken.add(candidates[index]!);
    chosen.push(points[index]!);
  }
  return added;
}

/**
 * The settings worth repeating, in order: the first (the centre), then in turn the likeliest good one and the ones
 * nearest to each edge; without scores the order of the plan.
 */
export function repeatOrder(chosen: readonly PlanCandidate[]): PlanCandidate[] {
  const scored = chosen.filter((c) => c.score !== null);
  if (scored.length === 0) return [...chosen];
  const by = (worth: (c: PlanCandidate) => number): PlanCandidate[] => [...scored].sort((a, b) => worth(b) - worth(a));
  const lists = [
    by((c) => c.score!.clean * c.score!.undamaged),
    by((c) => -Math.abs(c.score!.clean - 0.5)),
    by((c) => -Math.abs(c.score!.undamaged - 0.5)),
  ];
  const order = new Set<PlanCandidate>([chosen[0]!]);
  for (let i = 0; i < scored.length; i++) for (const list of lists) order.add(list[i]!);
  return [...order];
}
