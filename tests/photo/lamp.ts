/** One near lamp over the sheet: light falls off from it, and metal gleams where the eye stands in its mirror direction. */
export interface Lamp {
  /** m from the middle of the frame, in the axes of the sheet */
  readonly at: readonly [number, number, number];
  /** light at a place, 1 in the middle */
  light(x: number, y: number): number;
}

/**
 * Lamp at an elevation (rad) and side (rad, in the axes of the sheet) so far away that light over the points of `outline`
 * departs from that in the middle by `fallOff` at most: inverse square of the distance times the cosine on the sheet.
 */
export function makeLamp(
  elevation: number,
  side: number,
  fallOff: number,
  outline: readonly (readonly [number, number])[],
): Lamp {
  const lampAt = (distance: number): Lamp => {
    const [x0, y0, z0] = [
      distance * Math.cos(elevation) * Math.cos(side),
      distance * Math.cos(elevation) * Math.sin(side),
      distance * Math.sin(elevation),
    ];
    const middle = distance ** 3;
    return {
      at: [x0, y0, z0],
      light: (x, y) => {
        const d2 = (x - x0) ** 2 + (y - y0) ** 2 + z0 * z0;
        return middle / (d2 * Math.sqrt(d2));
      },
    };
  };
  let [near, far] = [0.05, 500];
  for (let step = 0; step < 60; step++) {
    const middle = Math.sqrt(near * far);
    const lamp = lampAt(middle);
    const worst = Math.max(...outline.map(([x, y]) => Math.abs(lamp.light(x, y) - 1)));
    if (worst > fallOff) near = middle;
    else far = middle;
  }
  return lampAt(far);
}

/** How a face gleams: widths of the lobe in slope along and across the brushing, and its peak as a share of white. */
export interface Gleam {
  readonly along: number;
  readonly across: number;
  readonly peak: number;
}

/** Lobe with long tails over slopes along and across. */
export function gleamOf({ along, across, peak }: Gleam, slopeAlong: number, slopeAcross: number): number {
  const a = slopeAlong / along;
  const b = slopeAcross / across;
  const tail = 1 + a * a + b * b;
  return peak / (tail * tail);
}
