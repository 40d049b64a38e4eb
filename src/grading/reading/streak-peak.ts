import { median } from "#numerics";
import { type Grid, STRIPS, type SpectrumLine, strippedSpectrum } from "./streak-spectrum.ts";

/** A line of a spectrum that may be streaks: where it was found and how likely chance made it. */
export interface Peak {
  readonly line: SpectrumLine;
  readonly frequency: number;
  readonly chance: number;
  readonly slope: number;
  readonly across: boolean;
  readonly length: number;
  readonly grid: Grid;
  readonly step: number;
  readonly share: number;
}

/** Share of the strips that count as independent: mottle reaches from one into the next (own choice, held by tests). */
const FREE = 0.9;

/** How much stronger the strips agree on a line than they differ: an F ratio. */
export const ratioOf = ({ coherent, apart }: SpectrumLine): number =>
  (STRIPS * (STRIPS - 1) * coherent) / Math.max(apart, 1e-18);
/** Chance that strips of noise agree so well on a line. */
export const chanceOf = (line: SpectrumLine): number => (1 + ratioOf(line) / (STRIPS - 1)) ** (FREE * (1 - STRIPS));

/** Chance that a line stands so far above its neighbours, 5 to 16 half steps off on either side: beyond its own window. */
export function chanceAmong(lines: readonly SpectrumLine[], m: number): number {
  const near: number[] = [];
  for (let k = Math.max(0, m - 16); k <= Math.min(lines.length - 1, m + 16); k += 1) {
    if (Math.abs(k - m) >= 5) near.push(lines[k]!.coherent);
  }
  if (near.length < 6) return 1;
  return (1 + ((lines[m]!.coherent / Math.max(median(near), 1e-18)) * Math.LN2) / 8) ** -8;
}

/** The same peak at the shear and frequency near it where the strips add up to most. */
export function sharpened(peak: Peak): Peak {
  let best = peak;
  for (let turn = -6; turn <= 6; turn += 1) {
    const slope = peak.slope + (turn / 4) * peak.step;
    const length = peak.grid.height - Math.ceil(Math.abs(slope) * peak.grid.width);
    const near = 1.5 / length;
    const lines = strippedSpectrum(peak.grid, slope, Math.max(0, peak.frequency - near), peak.frequency + near);
    for (let m = 1; m + 1 < lines.length; m += 1) {
      const top = refined(lines, m);
      if (top.line.coherent > best.line.coherent) best = { ...peak, ...top, slope, length };
    }
  }
  return best;
}

/** Frequency and power at the top of a parabola through the logarithms of a line and its neighbours. */
function refined(lines: readonly SpectrumLine[], m: number): { frequency: number; line: SpectrumLine } {
  const [a, b, c] = [lines[m - 1]!, lines[m]!, lines[m + 1]!];
  const [p, q, r] = [a, b, c].map((line) => Math.log(line.coherent + 1e-30)) as [number, number, number];
  const bend = p - 2 * q + r;
  const shift = bend < 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (p - r)) / bend)) : 0;
  const line = { ...b, coherent: Math.exp(q - 0.25 * (p - r) * shift) };
  return { frequency: b.frequency + shift * (c.frequency - b.frequency), line };
}
