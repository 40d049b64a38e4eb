import { createRandom, type RandomStream } from "#numerics";
import type { DriftCase, Setting } from "#terms";
import { anchorThresholds } from "./anchor-thresholds.ts";
import { dayEdges, NOMINAL_DAY, type WorldBase } from "./day-edges.ts";
import { drawLaws, namedLaws } from "./draw-laws.ts";
import { lnDamageDrive, lnRemovalDrive } from "./ray-conditions.ts";
import { flippedGrade, gradeOf, readResidue } from "./readings.ts";
import { residueAt } from "./residue.ts";
import { spotShape } from "./spot-shape.ts";
import { narrowMove, nothingMove, shareBetween } from "./world-kind.ts";
import type { BurnedPatch, TrueChance, World, WorldSpec } from "./world-spec.ts";

/** Edges farther away than this are held there, ln power. */
const SPAN = 3;
/** ln by which a world is off the version of the physics that it is anchored to. */
const ANCHOR_NOISE = 0.1;
/** Streams of a world: its laws, its kind, and from here on one per plate and one per grader. */
const STREAMS = { laws: 1, kind: 2, plates: 1000, graders: 1_000_000 } as const;

const held = (x: number): number => Math.max(-SPAN, Math.min(SPAN, x));

/**
 * A plate, its coat and the people who grade it, all invented: at the reference setting it becomes clean and damaged where
 * one version of the product's physics does; everywhere else it follows power laws of its own (see `drawLaws`).
 * Throws InvalidInput on settings without meaning.
 */
export function createWorld(spec: WorldSpec): World {
  const { setup, acceptance, reference, seed } = spec;
  const origin = createRandom(seed);
  const random = origin.substream(STREAMS.laws);
  const anchor = spec.anchors[random.integer(spec.anchors.length)]!;
  const lnClean = held(anchor.lnClean + ANCHOR_NOISE * random.normal());
  const lnDamage = held(anchor.lnDamage + ANCHOR_NOISE * random.normal());
  const laws = drawLaws(random, setup, spec.layers);
  const base: WorldBase = { setup, acceptance, laws, shape: spotShape(laws) };
  const anchored = anchorThresholds(base, reference, lnClean, lnDamage);
  const days = dayEdges(base, anchored.offsets, anchored.lnRemoval);
  const move =
    spec.kind === "narrow"
      ? narrowMove(days, anchored.lnDamage, reference, setup, origin.substream(STREAMS.kind))
      : spec.kind === "nothing works"
        ? nothingMove(days, anchored.lnDamage, spec.candidates ?? [reference], spec.drift ?? NOMINAL_DAY)
        : 0;
  const thresholds = { ...anchored, lnDamage: anchored.lnDamage + move };

  function plate(coupon: number): { removal: number; damage: number } {
    const own = origin.substream(STREAMS.plates + coupon);
    return { removal: laws.plateRemoval * own.normal(), damage: laws.plateDamage * own.normal() };
  }

  function burn(setting: Setting, coupon: number, noise: RandomStream, grader = 0): BurnedPatch {
    const { removal, damage } = plate(coupon);
    const ray = days.conditions(setting);
    const lnPower = days.lnPower(setting);
    const lnThickness = laws.patchThickness * noise.normal();
    const drive = lnRemovalDrive(ray, laws, lnPower) - thresholds.lnRemoval - removal - laws.patchOwn * noise.normal();
    const residue = residueAt(ray.exposure, laws.layers, thresholds.offsets, drive, lnThickness);
    const lnRatio = lnDamageDrive(ray, laws, lnPower) - thresholds.lnDamage - damage - laws.patchOwn * noise.normal();
    const grade = gradeOf(Math.exp(lnRatio), acceptance.metalConditionMax);
    const bias = laws.graderSpread * origin.substream(STREAMS.graders + grader).normal();
    const residueFraction = readResidue(residue, acceptance.residueMax, laws, bias, noise);
    const wrong = noise.next() < laws.misgraded;
    return {
      residueFraction,
      metalCondition: wrong ? flippedGrade(grade, acceptance.metalConditionMax) : grade,
      thickness: spec.nominalThickness * Math.exp(lnThickness),
    };
  }

  function chance(setting: Setting, drift: readonly DriftCase[]): TrueChance {
    const lnPower = days.lnPower(setting);
    const cleanEdges = days.clean(setting, drift);
    const damageEdges = days.damage(setting, drift, thresholds.lnDamage);
    let clean = 0;
    let undamaged = 0;
    for (let i = 0; i < cleanEdges.length; i++) {
      if (lnPower >= cleanEdges[i]!) clean++;
      if (lnPower < damageEdges[i]!) undamaged++;
    }
    return {
      clean: clean / cleanEdges.length,
      undamaged: undamaged / cleanEdges.length,
      both: shareBetween(lnPower, cleanEdges, damageEdges),
    };
  }

  return {
    seed,
    kind: spec.kind,
    laws: {
      ...namedLaws(laws),
      anchorClean: lnClean,
      anchorDamage: lnDamage,
      damageMove: move,
      lnRemovalThreshold: thresholds.lnRemoval,
      lnDamageThreshold: thresholds.lnDamage,
    },
    burn,
    chance,
    edges(setting) {
      const lnPower = days.lnPower(setting);
      return {
        lnClean: held(days.clean(setting, NOMINAL_DAY)[0]! - lnPower),
        lnDamage: held(days.damage(setting, NOMINAL_DAY, thresholds.lnDamage)[0]! - lnPower),
      };
    },
  };
}
