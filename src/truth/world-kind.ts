import type { RandomStream } from "#numerics";
import type { DriftCase, LaserSetup, Setting } from "#terms";
import { type DayEdges, NOMINAL_DAY } from "./day-edges.ts";

/** ln by which the damage threshold may be moved at most, either way, and to which the move is found. */
const MOST = 8;
const TOLERANCE = 1e-3;
/** Share of the production days at which a setting of a "nothing works" world must stay, and the room beyond, ln power. */
const WORKS = 0.5;
const MARGIN = 0.08;
/** Best ln(damage/clean) of a "narrow" world. Invented. */
const NARROW = { least: 0.1, span: 0.2 } as const;

/** Largest move in [−MOST, MOST] at which `holds`; it holds below some move and not above. */
function lastMove(holds: (move: number) => boolean): number {
  let low = -MOST;
  let high = MOST;
  while (high - low > TOLERANCE) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** A handful of settings around the reference: speed, spacing and passes a step either way, as far as the set-up runs them. */
function around(reference: Setting, setup: LaserSetup): Setting[] {
  const settings: Setting[] = [];
  for (const speed of [0.7, 1, 1.4])
    for (const spacing of [0.8, 1])
      for (const passes of [1, 2])
        settings.push({
          ...reference,
          speed: Math.min(setup.speedMax, Math.max(setup.speedMin, reference.speed * speed)),
          lineSpacing: Math.max(setup.lineSpacingMin, reference.lineSpacing * spacing),
          passes: Math.min(setup.passesMax, reference.passes * passes),
        });
  return settings;
}

/** ln by which the damage threshold moves so that the best room around the reference is between 0.1 and 0.3. */
export function narrowMove(
  edges: DayEdges,
  lnDamage: number,
  reference: Setting,
  setup: LaserSetup,
  random: RandomStream,
): number {
  const room = NARROW.least + NARROW.span * random.next();
  const settings = around(reference, setup);
  return lastMove((move) =>
    settings.every((s) => edges.damage(s, NOMINAL_DAY, lnDamage + move)[0]! - edges.clean(s, NOMINAL_DAY)[0]! <= room),
  );
}

/** Share of the days on which a mean power (ln W) lies between the edges. */
export function shareBetween(lnPower: number, clean: Float64Array, damage: Float64Array): number {
  let both = 0;
  for (let i = 0; i < clean.length; i++) if (lnPower >= clean[i]! && lnPower < damage[i]!) both++;
  return both / clean.length;
}

/**
 * ln by which the damage threshold moves so that no candidate is clean and undamaged on half of the days, with some room;
 * 0 where nothing works anyway.
 */
export function nothingMove(
  edges: DayEdges,
  lnDamage: number,
  candidates: readonly Setting[],
  drift: readonly DriftCase[],
): number {
  const powers = candidates.map((c) => edges.lnPower(c));
  // Only settings that are clean on half of the days can work at all.
  const able = candidates
    .map((setting, i) => ({ setting, lnPower: powers[i]! }))
    .filter(({ setting, lnPower }) => shareBetween(lnPower, edges.clean(setting, drift), everDamaged(drift)) >= WORKS);
  const none = (move: number) =>
    able.every(
      ({ setting, lnPower }) =>
        shareBetween(lnPower, edges.clean(setting, drift), edges.damage(setting, drift, lnDamage + move)) < WORKS,
    );
  return Math.min(0, lastMove(none) - MARGIN);
}

const never = new WeakMap<readonly DriftCase[], Float64Array>();

/** Damage edges that no power reaches. */
function everDamaged(drift: readonly DriftCase[]): Float64Array {
  let at = never.get(drift);
  if (!at) never.set(drift, (at = new Float64Array(drift.length).fill(Infinity)));
  return at;
}
