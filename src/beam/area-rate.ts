import type { LaserSetup, Metre, MetrePerSecond, MetrePerSecondSquared, Second, Setting } from "#terms";
import { requireNonNegative, requirePositive } from "#units";
import { lensOf } from "./lens.ts";
import { wholePasses } from "./require.ts";

/** Time to bring the head from one scan field to the next, s (common practice, no source). */
const FIELD_CHANGE_TIME = 1;

export interface ScanArea {
  /** m, along the lines */
  readonly width: Metre;
  /** m, across the lines */
  readonly height: Metre;
  /** s from one field to the next; 1 s when not given */
  readonly fieldChangeTime?: Second;
}

export interface AreaRate {
  /** m²/s, turn-rounds, returns between passes and field changes included */
  readonly rate: number;
  /** m²/s without them: v·s/passes */
  readonly idealRate: number;
  /** lines of one pass over the whole area, all fields */
  readonly lines: number;
  /** s, one line with its turn-round */
  readonly timePerLine: Second;
  /** s, turn-round of one line */
  readonly turnTime: Second;
  /** scan fields that the area is cut into */
  readonly fields: number;
  /** s, returns to the start between passes and changes of field, all together */
  readonly jumpTime: Second;
  /** s, everything */
  readonly total: Second;
}

/**
 * Turn-round between lines: the mirror stops and comes back to speed outside the area, 2·v/a.
 * @param speed m/s
 * @param acceleration m/s²
 * @returns s
 * Throws InvalidInput when an argument is not positive. Source: kinematics at constant acceleration.
 */
export function turnTime(speed: MetrePerSecond, acceleration: MetrePerSecondSquared): Second {
  return (2 * requirePositive("speed", speed, "m/s")) / requirePositive("acceleration", acceleration, "m/s2");
}

/**
 * Jump from rest to rest: L/v + v/a, or 2·√(L/a) where the top speed v is not reached (L < v²/a).
 * @param distance m
 * @param speedMax m/s
 * @param acceleration m/s²
 * @returns s
 * Throws InvalidInput when speed or acceleration is not positive. Source: kinematics at constant acceleration.
 */
export function jumpTime(distance: Metre, speedMax: MetrePerSecond, acceleration: MetrePerSecondSquared): Second {
  requireNonNegative("jump distance", distance, "m");
  requirePositive("speed", speedMax, "m/s");
  requirePositive("acceleration", acceleration, "m/s2");
  if (distance < (speedMax * speedMax) / acceleration) return 2 * Math.sqrt(distance / acceleration);
  return distance / speedMax + speedMax / acceleration;
}

/**
 * Area rate by hand: line width × travel speed / passes.
 * @param lineWidth m
 * @param travelSpeed m/s
 * @param passes 1, 2, 3 …
 * @returns m²/s
 * Throws InvalidInput when an argument is not positive or passes is not whole. Source: definition.
 */
export function handAreaRate(lineWidth: Metre, travelSpeed: MetrePerSecond, passes: number): number {
  return (
    (requirePositive("line width", lineWidth, "m") * requirePositive("travel speed", travelSpeed, "m/s")) /
    wholePasses(passes)
  );
}

const pieces = (length: number, piece: number): number => Math.max(1, Math.ceil(length / piece - 1e-9));

/**
 * Real area rate of a setting: area / (passes·lines·(length/v + 2·v/a) + returns + field changes).
 * The area is cut into equal fields no larger than the lens's scan field; by default it is one full field.
 * @returns see AreaRate (m²/s, s)
 * Throws InvalidInput on an unknown lens, a size, speed or spacing that is not positive, or passes that are not whole.
 * Source: kinematics at constant acceleration; field change time common practice, no source.
 */
export function areaRate(setup: LaserSetup, setting: Setting, area?: ScanArea): AreaRate {
  const { fieldSide } = lensOf(setup, setting.lens);
  const width = requirePositive("width", area?.width ?? fieldSide, "m");
  const height = requirePositive("height", area?.height ?? fieldSide, "m");
  const change = requireNonNegative("field change time", area?.fieldChangeTime ?? FIELD_CHANGE_TIME, "s");
  const { speed, lineSpacing, passes } = setting;
  requirePositive("line spacing", lineSpacing, "m");
  wholePasses(passes);
  const across = pieces(width, fieldSide);
  const along = pieces(height, fieldSide);
  const fields = across * along;
  const fieldWidth = width / across;
  const fieldHeight = height / along;
  const linesPerField = pieces(fieldHeight, lineSpacing);
  const turn = turnTime(speed, setup.acceleration);
  const timePerLine = fieldWidth / speed + turn;
  const back = jumpTime(Math.hypot(fieldWidth, fieldHeight), setup.speedMax, setup.acceleration);
  const jumps = fields * (passes - 1) * back + (fields - 1) * change;
  const lines = fields * linesPerField;
  const total = passes * lines * timePerLine + jumps;
  return {
    rate: (width * height) / total,
    idealRate: (speed * lineSpacing) / passes,
    lines,
    timePerLine,
    turnTime: turn,
    fields,
    jumpTime: jumps,
    total,
  };
}
