/**
 * The r² that stands for an event of a given gain at a place: `profileLog` of it is the ln of gain × profile.
 *
 * Equation: Gaussian r² − ln(g)/2; flat top, whose ln is ½·ln(1 − r²): 1 − g² inside the spot for a pulse, and
 * 1 − (1 − r²)·g² for a line's chord. 2 (nothing) outside.
 * Units: r2 squared distance over squared radius, gain 1. Range: gain above 0. Errors: none. Source: own.
 */
export function shapeOf(r2: number, gain: number, profile: "gaussian" | "top-hat", line: boolean): number {
  if (profile === "gaussian") return gain === 1 ? r2 : r2 - 0.5 * Math.log(gain);
  if (r2 >= 1) return 2;
  return line ? 1 - (1 - r2) * gain * gain : 1 - gain * gain;
}
