import type { RandomStream } from "#numerics";
import { createRandom } from "#numerics";
import type { Acceptance, LaserSetup, MetalConditionGrade, Setting } from "#terms";
import { type Exposure, exposureOf, spotTables } from "./world-exposure.ts";
import { drawLaws, plateStream, type WorldLaws } from "./world-laws.ts";

/** Factors of one production day on delivered power, spot diameter, speed and layer thickness. */
export interface DriftCase {
  readonly power: number;
  readonly spot: number;
  readonly speed: number;
  readonly thickness: number;
}

export type WorldKind = "as anchored" | "narrow" | "nothing works";

export interface WorldSpec {
  readonly seed: number;
  readonly setup: LaserSetup;
  readonly acceptance: Pick<Acceptance, "residueMax" | "metalConditionMax">;
  /** m, of the whole coat */
  readonly nominalThickness: number;
  readonly layers: 1 | 2;
  readonly reference: Setting;
  /** ln power factors on the reference from which it is clean, and damaged, in versions of a prior; one is picked */
  readonly anchors: readonly { readonly lnClean: number; readonly lnDamage: number }[];
  readonly kind: WorldKind;
  /** settings that must all fail where nothing is to work, and the days that they are tried on */
  readonly candidates: readonly Setting[];
  readonly drift: readonly DriftCase[];
}

/** An invented world that answers as a plate and a production line might, in another form than the product's physics. */
export interface World {
  readonly seed: number;
  readonly kind: WorldKind;
  /** every drawn number by its name */
  readonly laws: Readonly<Record<string, number>>;
  /** what a coupon patch shows to its grader; plate effects belong to the coupon */
  burn(
    setting: Setting,
    coupon: number,
    random: RandomStream,
  ): { readonly residueFraction: number; readonly metalCondition: MetalConditionGrade; readonly thickness: number };
  /** true chances of a production patch over the days of the drift: no coupon scatter, no plate, no grader */
  chance(setting: Setting, drift: readonly DriftCase[]): { clean: number; undamaged: number; both: number };
  /** ln power factors from which the nominal patch is clean, and damaged, within ±3 */
  edges(setting: Setting): { lnClean: number; lnDamage: number };
}

/** Shifts of the logarithms that stand for a day, a plate or a patch. */
interface Shift {
  readonly power: number;
  readonly spot: number;
  readonly speed: number;
  readonly thickness: number;
  /** of both thresholds */
  readonly removal: number;
  readonly damage: number;
}

const still: Shift = { power: 0, spot: 0, speed: 0, thickness: 0, removal: 0, damage: 0 };
const SPAN = 3;
/** Highest true chance that any setting may have where nothing is to work. */
const HOPELESS = 0.5;

/**
 * Makes a world: its edges at the reference setting are those of an anchor, everywhere else its own laws hold.
 * Units: SI; ln power factors. Range: anchors within ±3. Errors: none. Source: invented.
 */
export function createWorld(spec: WorldSpec): World {
  const { setup, acceptance, layers } = spec;
  const laws = drawLaws(spec.seed, setup.kind, layers);
  const tables = spotTables(laws);
  const random = createRandom(spec.seed).substream(12);
  const picked = spec.anchors[random.integer(spec.anchors.length)]!;
  const lnClean = hold(picked.lnClean + 0.1 * random.normal());
  const free = hold(picked.lnDamage + 0.1 * random.normal());
  const lnDamage = spec.kind === "narrow" ? lnClean + 0.2 + 0.2 * random.next() : free;
  const known = new Map<string, Exposure>();
  const exposure = (setting: Setting): Exposure => {
    const key = `${setting.pulseWidth}|${setting.frequency}|${setting.speed}|${setting.lineSpacing}|${setting.passes}|${setting.defocus}|${setting.lens}|${setting.duty}|${(setting.power * setting.level).toFixed(6)}`;
    const before = known.get(key);
    if (before) return before;
    const made = exposureOf(laws, tables, setup, setting);
    known.set(key, made);
    return made;
  };
  const at = exposure(spec.reference);
  const physics = { laws, at, layers, removal: 0, damage: 0 };
  // Thresholds at which the reference meets the limits at exactly its anchors.
  physics.removal = solve(
    (t) => residueOf({ ...physics, removal: t }, at, { ...still, power: lnClean }) <= acceptance.residueMax,
    -40,
    60,
  );
  physics.damage = harmOf(physics, at, { ...still, power: lnDamage });
  const limit = acceptance.residueMax;

  const chance = (setting: Setting, drift: readonly DriftCase[]) => {
    const e = exposure(setting);
    let clean = 0;
    let undamaged = 0;
    let both = 0;
    for (const day of drift) {
      const shift = {
        power: Math.log(day.power),
        spot: Math.log(day.spot),
        speed: Math.log(day.speed),
        thickness: Math.log(day.thickness),
        removal: 0,
        damage: 0,
      };
      const c = residueOf(physics, e, shift) <= limit;
      const u = harmOf(physics, e, shift) <= physics.damage;
      if (c) clean++;
      if (u) undamaged++;
      if (c && u) both++;
    }
    const n = drift.length;
    return { clean: clean / n, undamaged: undamaged / n, both: both / n };
  };

  let lowered = 0;
  if (spec.kind === "nothing works") {
    const works = () => spec.candidates.some((s) => chance(s, spec.drift).both >= HOPELESS);
    while (works() && lowered < 6) {
      physics.damage -= 0.1;
      lowered += 0.1;
    }
    // A margin, so that what lies between the candidates does not work either.
    physics.damage -= 0.1;
    lowered += 0.1;
  }

  return {
    seed: spec.seed,
    kind: spec.kind,
    laws: { ...laws, lnClean, lnDamage, removalThreshold: physics.removal, damageThreshold: physics.damage, lowered },
    chance,
    burn(setting, coupon, noise) {
      const plate = plateStream(spec.seed, coupon);
      const thickness = laws.couponThickness * noise.normal();
      const shift = {
        ...still,
        thickness,
        removal: laws.plateRemoval * plate.normal() + laws.ownScatter * noise.normal(),
        damage: laws.plateDamage * plate.normal() + laws.ownScatter * noise.normal(),
      };
      const e = exposure(setting);
      const residue = residueOf(physics, e, shift);
      const ratio = harmOf(physics, e, shift) - physics.damage;
      const read =
        residue * Math.exp(0.2 * noise.normal() + laws.graderBias) + 0.01 * Math.abs(noise.normal()) * residue;
      let seen = Math.min(1, Math.max(0, read));
      let grade = gradeOf(ratio, acceptance.metalConditionMax);
      if (noise.next() < laws.misgraded) seen = seen <= limit ? 0.3 : 0;
      if (noise.next() < laws.misgraded) grade = grade > acceptance.metalConditionMax ? 0 : 3;
      return {
        residueFraction: Math.round(1000 * seen) / 1000,
        metalCondition: grade,
        thickness: spec.nominalThickness * Math.exp(thickness),
      };
    },
    edges(setting) {
      const e = exposure(setting);
      return {
        lnClean: solveUp((u) => residueOf(physics, e, { ...still, power: u }) <= limit),
        lnDamage: solveUp((u) => harmOf(physics, e, { ...still, power: u }) > physics.damage),
      };
    },
  };
}

interface Physics {
  readonly laws: WorldLaws;
  /** the reference, where all exponents are anchored */
  readonly at: Exposure;
  readonly layers: 1 | 2;
  readonly removal: number;
  readonly damage: number;
}

const hold = (u: number): number => Math.max(-SPAN, Math.min(SPAN, u));

/** ln of what is left of a fluence behind the plume. */
function behindPlume(laws: WorldLaws, at: Exposure, ln: number): number {
  const from = at.peak + Math.log(laws.plumeFrom);
  return ln <= from ? ln : from + laws.plumePower * (ln - from);
}

/** Share of area with something left. */
function residueOf({ laws, at, layers, removal }: Physics, e: Exposure, shift: Shift): number {
  const passes = Math.log(1 + (e.passes - 1) * laws.passWorth) - Math.log(1 + (at.passes - 1) * laws.passWorth);
  const count = e.count - at.count - shift.speed + 2 * shift.spot;
  const time = e.time - at.time;
  const heat = laws.warming * (e.power - at.power + shift.power);
  const upper =
    removal +
    laws.removalTime * time +
    laws.removalCount * (count + passes) +
    laws.removalSpot * (e.spot - at.spot + shift.spot) +
    laws.thickness * shift.thickness +
    shift.removal -
    heat;
  const threshold = layers === 2 ? Math.max(upper, upper + Math.log(laws.lowerRatio) + laws.lowerTime * time) : upper;
  const one = shift.power - 2 * shift.spot;
  const all = shift.power - shift.speed + passes;
  let left = 0;
  for (let i = 0; i < e.strongest.length; i++) {
    const strongest = behindPlume(laws, at, e.strongest[i]! + one);
    const effective = (1 - laws.eaten) * strongest + laws.eaten * (e.sum[i]! + all);
    left += 1 / (1 + Math.exp((1.7 * (effective - threshold)) / laws.step));
  }
  return left / e.strongest.length;
}

/** ln of the load on the metal at its worst place. */
function harmOf({ laws, at }: Physics, e: Exposure, shift: Shift): number {
  const count = e.count - at.count + Math.log(e.passes / at.passes);
  return (
    e.peak +
    shift.power -
    2 * shift.spot -
    laws.damageTime * (e.time - at.time) -
    laws.damageCount * count -
    laws.damageSpot * (e.spot - at.spot + shift.spot) +
    laws.warming * (e.power - at.power + shift.power) -
    shift.damage
  );
}

function gradeOf(ratio: number, max: number): MetalConditionGrade {
  if (ratio > 0) return max >= 2 ? 3 : 2;
  if (ratio > -0.22) return max >= 2 ? 2 : 1;
  return 0;
}

/** Highest value at which a condition still holds that holds low and fails high. */
function solve(holds: (t: number) => boolean, from: number, to: number): number {
  let low = from;
  let high = to;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Lowest ln power at which a condition holds that once met stays met; ±SPAN where it holds everywhere or nowhere. */
function solveUp(holds: (u: number) => boolean): number {
  let low = -SPAN;
  let high = SPAN;
  for (let i = 0; i < 24; i++) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}
