import type { CharLaw } from "#removal";
import { clamp01, goneAt, NOTHING } from "./point-law.ts";
import type { PointSpec } from "./point-spec.ts";

/** What the burning of char changes at a point. */
export interface CharredPoint {
  /** m */
  char: number;
  /** K, highest linear rise of metal under layer or char */
  covered: number;
}

/**
 * Takes char off by so many equal events, of each of which `share` is left; returns how many of them found none.
 *
 * Equation: what `CharLaw.gone` says at fluence·share, event after event; the metal under it warms by fluence·√share.
 * Units: fluence J/m², share 1, events 1; changes char (m) and the covered rise (K). Range: share 0 to 1. Errors: none.
 * Source: `charBurnt`, `charSublimated`, `recession`, `charShattered`; own derivation.
 */
export function burnChar(
  point: CharredPoint,
  spec: PointSpec,
  charLaw: CharLaw,
  fluence: number,
  share: number,
  events: number,
): number {
  const nothing = NOTHING * spec.residueThickness;
  const { columns, lnFluenceFirst, lnFluenceStep } = spec.law;
  const { remaining, metalRise } = charLaw;
  const last = remaining.length - 1;
  if (share <= 0) return events;
  const place = Math.min(Math.max((Math.log(fluence * share) - lnFluenceFirst) / lnFluenceStep, 0), columns - 1.000001);
  const column = Math.floor(place);
  const wx = place - column;
  const warmth = fluence * Math.sqrt(share);
  let known = -1;
  let lower = 0;
  let upper = 0;
  let m = 0;
  for (; m < events && point.char > nothing; m++) {
    let row = 0;
    while (row < last - 1 && point.char > remaining[row + 1]) row++;
    if (row !== known) {
      known = row;
      lower = goneAt(charLaw, row, column, wx);
      upper = goneAt(charLaw, row + 1, column, wx);
    }
    const wy = clamp01((point.char - remaining[row]) / (remaining[row + 1] - remaining[row]));
    const rise = warmth * (metalRise[row] + wy * (metalRise[row + 1] - metalRise[row]));
    if (rise > point.covered) point.covered = rise;
    // Less char than the first node: the same share of it goes.
    const scale = point.char < remaining[0] ? point.char / remaining[0] : 1;
    const off = scale * (lower + wy * (upper - lower));
    if (off < 1e-3 * nothing) {
      // So little that all events of the group together take nothing that counts: at once, not one by one.
      point.char = Math.max(0, point.char - (events - m) * off);
      return 0;
    }
    point.char = Math.max(0, point.char - off);
  }
  return events - m;
}
