import { depthOfFocus } from "#beam";
import type { Delivery, LaserSetup, Lens, Metre } from "#terms";
import { formatQuantity, invalid } from "#units";
import { rimFall, usableField } from "./usable-field.ts";

/** m to either side by which a hand lets the stand-off swing: 2 to 5 mm (common practice, no source) */
export const handSwing: Metre = 5e-3;

export interface LensAdvice {
  readonly lens: Lens;
  /** m, side of the field that the shape of the face leaves */
  readonly field: Metre;
  /** fields for one face, taken as a square */
  readonly fields: number;
  readonly why: string;
}

/** Fields of a size over a square face. */
const fieldsOf = (side: Metre, field: Metre): number => Math.max(1, Math.ceil(side / field - 1e-9)) ** 2;
const mm = (value: Metre): string => formatQuantity(value, "mm", 2);

/**
 * Lens for a face. By scanner or robot: the smallest field that covers the face in one piece, because a short lens makes
 * the smallest spot; where none does, the largest field. By hand: the smallest spot whose depth of focus bears the swing
 * of the hand; where none does, the deepest.
 * @param setup its lenses are compared
 * @param delivery how the beam is brought
 * @param side m, of the face, taken as a square
 * @param radius m, tightest curve of the face, null when flat
 * @returns lens, usable field (m), fields, and why in a sentence
 * Throws InvalidInput for a set-up without lenses or lengths that are not positive. Source: optics as usableField.
 */
export function adviseLens(setup: LaserSetup, delivery: Delivery, side: Metre, radius: Metre | null): LensAdvice {
  if (setup.lenses.length === 0) invalid("lenses", 0, "", `${setup.id} needs at least one lens`);
  const all = setup.lenses.map((lens) => ({ lens, field: usableField(lens, radius), fields: 0 }));
  const rows = all.map((row) => ({ ...row, fields: fieldsOf(side, row.field) }));
  return delivery === "hand" ? forHand(rows) : forField(rows, side);
}

type Row = Omit<LensAdvice, "why">;

function forField(rows: readonly Row[], side: Metre): LensAdvice {
  const cover = rows.filter((row) => row.fields === 1).sort((a, b) => a.lens.spotDiameter - b.lens.spotDiameter)[0];
  if (cover !== undefined)
    return {
      ...cover,
      why: `Lens ${cover.lens.id} covers about ${mm(side)} in one field, with the smallest spot of the lenses that do.`,
    };
  const widest = [...rows].sort((a, b) => b.field - a.field)[0];
  return {
    ...widest,
    why: `No lens covers about ${mm(side)} in one field; ${widest.lens.id} has the widest, ${mm(widest.field)} on this shape.`,
  };
}

function forHand(rows: readonly Row[]): LensAdvice {
  const depth = (row: Row): Metre => depthOfFocus(row.lens.rayleighLength, rimFall);
  const steady = rows
    .filter((row) => depth(row) >= handSwing)
    .sort((a, b) => a.lens.spotDiameter - b.lens.spotDiameter)[0];
  if (steady !== undefined)
    return {
      ...steady,
      why: `Lens ${steady.lens.id} has the smallest spot that still bears a hand's swing of ${mm(handSwing)}: ${mm(depth(steady))} of focus to either side.`,
    };
  const deepest = [...rows].sort((a, b) => depth(b) - depth(a))[0];
  return {
    ...deepest,
    why: `No lens bears a hand's swing of ${mm(handSwing)}; ${deepest.lens.id} is the deepest with ${mm(depth(deepest))} of focus to either side: use a spacer or roller.`,
  };
}
