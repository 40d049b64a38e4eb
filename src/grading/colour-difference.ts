/** CIELAB, D65 and 2° observer. */
export interface Lab {
  readonly L: number;
  readonly a: number;
  readonly b: number;
}

const TWENTY_FIVE_7 = 25 ** 7;
const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const degrees = (value: number): number => (value * 180) / Math.PI;

/** Hue angle in degrees, 0 to 360; 0 for a colour without chroma. */
function hue(a: number, b: number): number {
  if (a === 0 && b === 0) return 0;
  const angle = degrees(Math.atan2(b, a));
  return angle < 0 ? angle + 360 : angle;
}

/**
 * Colour difference ΔE00 (CIEDE2000 with kL = kC = kH = 1).
 *
 * Equation: ΔE00² = (ΔL'/S_L)² + (ΔC'/S_C)² + (ΔH'/S_H)² + R_T·(ΔC'/S_C)·(ΔH'/S_H).
 * Units: CIELAB; result 1. Range: any colours; meant for small differences. Errors: none.
 * Source: ISO/CIE 11664-6; written after Sharma, Wu and Dalal, Color Res. Appl. 30 (2005) 21.
 */
export function colourDifference(first: Lab, second: Lab): number {
  const chroma = (Math.hypot(first.a, first.b) + Math.hypot(second.a, second.b)) / 2;
  const g = 0.5 * (1 - Math.sqrt(chroma ** 7 / (chroma ** 7 + TWENTY_FIVE_7)));
  const a1 = (1 + g) * first.a;
  const a2 = (1 + g) * second.a;
  const c1 = Math.hypot(a1, first.b);
  const c2 = Math.hypot(a2, second.b);
  const h1 = hue(a1, first.b);
  const h2 = hue(a2, second.b);

  const grey = c1 * c2 === 0;
  let dh = h2 - h1;
  if (grey) dh = 0;
  else if (dh > 180) dh -= 360;
  else if (dh < -180) dh += 360;
  const dL = second.L - first.L;
  const dC = c2 - c1;
  const dH = 2 * Math.sqrt(c1 * c2) * Math.sin(radians(dh / 2));

  const meanL = (first.L + second.L) / 2;
  const meanC = (c1 + c2) / 2;
  let meanH = h1 + h2;
  if (!grey) {
    if (Math.abs(h1 - h2) <= 180) meanH /= 2;
    else meanH = meanH < 360 ? (meanH + 360) / 2 : (meanH - 360) / 2;
  }
  const t =
    1 -
    0.17 * Math.cos(radians(meanH - 30)) +
    0.24 * Math.cos(radians(2 * meanH)) +
    0.32 * Math.cos(radians(3 * meanH + 6)) -
    0.2 * Math.cos(radians(4 * meanH - 63));
  const turn = 30 * Math.exp(-(((meanH - 275) / 25) ** 2));
  const rc = 2 * Math.sqrt(meanC ** 7 / (meanC ** 7 + TWENTY_FIVE_7));
  const sl = 1 + (0.015 * (meanL - 50) ** 2) / Math.sqrt(20 + (meanL - 50) ** 2);
  const sc = 1 + 0.045 * meanC;
  const sh = 1 + 0.015 * meanC * t;
  const rt = -Math.sin(radians(2 * turn)) * rc;
  return Math.sqrt((dL / sl) ** 2 + (dC / sc) ** 2 + (dH / sh) ** 2 + rt * (dC / sc) * (dH / sh));
}
