/** Where the events of one pass fall around sample points of the repeating cell of a raster. */
export interface RasterCell {
  /** per sample point: squared distances (m²) of the events of one pass, in time order */
  readonly points: readonly Float64Array[];
  /** per sample point: 1 where an event is the first of its line at that point */
  readonly lineStarts: readonly Uint8Array[];
  /** how many real events each listed event stands for */
  readonly multiplicity: number;
}

/** Events farther than this many radii away deposit less than 1.2 % of the peak and are left out. */
const CUTOFF = 1.5;
/** Pulses closer than this share of the radius are indistinguishable and are grouped; a first look groups twice as far. */
const GROUP_PITCH = 1 / 8;
const QUICK_GROUP_PITCH = 1 / 4;
const GOLDEN = 0.6180339887498949;

/**
 * Events of one pass around the sample points of a pulsed raster.
 *
 * The cell is one pulse pitch by two line spacings; the phase of the pulses shifts from line to line by the golden
 * ratio, because nothing on a real machine keeps it. `quick`: fewer points and larger groups, to look through many settings.
 * Units: radius, pitch, spacing in m. Range: all above 0. Errors: none. Source: own derivation.
 */
export function pulsedCell(radius: number, pitch: number, spacing: number, quick = false): RasterCell {
  const multiplicity = Math.max(1, Math.floor((radius * (quick ? QUICK_GROUP_PITCH : GROUP_PITCH)) / pitch));
  const step = pitch * multiplicity;
  const reach = CUTOFF * radius;
  const lines = Math.ceil(reach / spacing) + 1;
  // Events p apart leave a ripple of 2·exp(−π²w²/(2p²)), 5e-9 at half a radius: few points see all there is.
  const nx = step < 0.25 * radius ? 1 : sampleCount(step, radius, 2, quick ? 4 : 6);
  const ny = spacing < 0.5 * radius ? 3 : sampleCount(spacing, radius, quick ? 4 : 6, quick ? 8 : 12);
  const periods = step > 0.4 * radius ? 2 : 1;
  const points: Float64Array[] = [];
  const lineStarts: Uint8Array[] = [];
  for (let iy = 0; iy < ny * periods; iy++) {
    const y = ((iy + 0.5) / ny) * spacing;
    for (let ix = 0; ix < nx; ix++) {
      const x = ((ix + 0.5) / nx) * step;
      const events: number[] = [];
      const starts: number[] = [];
      for (let line = -lines; line <= lines + periods; line++) {
        const dy = line * spacing - y;
        if (Math.abs(dy) > reach) continue;
        const phase = (((line * GOLDEN) % 1) + 1) % 1;
        const half = Math.sqrt(reach * reach - dy * dy);
        const first = Math.ceil((x - half) / step - phase);
        const last = Math.floor((x + half) / step - phase);
        for (let i = first; i <= last; i++) {
          const dx = (i + phase) * step - x;
          events.push(dx * dx + dy * dy);
          starts.push(i === first ? 1 : 0);
        }
      }
      points.push(Float64Array.from(events));
      lineStarts.push(Uint8Array.from(starts));
    }
  }
  return { points, lineStarts, multiplicity };
}

/**
 * Events of one pass for a beam that is on all along each line: one event per line, at its distance in y.
 *
 * Units: radius, spacing in m. Range: all above 0. Errors: none. Source: own derivation.
 */
export function lineCell(radius: number, spacing: number): RasterCell {
  const reach = CUTOFF * radius;
  const lines = Math.ceil(reach / spacing) + 1;
  const ny = Math.max(12, sampleCount(spacing, radius, 12, 24));
  const points: Float64Array[] = [];
  const lineStarts: Uint8Array[] = [];
  for (let iy = 0; iy < ny; iy++) {
    const y = ((iy + 0.5) / ny) * spacing;
    const events: number[] = [];
    for (let line = -lines; line <= lines + 1; line++) {
      const dy = line * spacing - y;
      if (Math.abs(dy) <= reach) events.push(dy * dy);
    }
    points.push(Float64Array.from(events));
    lineStarts.push(new Uint8Array(events.length).fill(1));
  }
  return { points, lineStarts, multiplicity: 1 };
}

function sampleCount(pitch: number, radius: number, least: number, most: number): number {
  return Math.min(most, Math.max(least, Math.ceil((6 * pitch) / radius)));
}
