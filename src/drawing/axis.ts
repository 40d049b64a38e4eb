import { invalid } from "#units";

/** A scale from values to picture positions. */
export interface Axis {
  readonly low: number;
  readonly high: number;
  readonly logarithmic: boolean;
  readonly from: number;
  readonly to: number;
}

export function axisOf(low: number, high: number, from: number, to: number, logarithmic: boolean): Axis {
  if (!(high > low) || !Number.isFinite(high - low))
    return invalid("axis end", high, "", "must be above the other end");
  if (logarithmic && !(low > 0)) return invalid("axis start", low, "", "must be above 0 on a logarithmic axis");
  return { low, high, logarithmic, from, to };
}

/** Position of a value; values beyond the ends land on the end. */
export function at(axis: Axis, value: number): number {
  const share = axis.logarithmic
    ? Math.log(value / axis.low) / Math.log(axis.high / axis.low)
    : (value - axis.low) / (axis.high - axis.low);
  return axis.from + (axis.to - axis.from) * Math.min(1, Math.max(0, share));
}

/** Round values along the axis: 1-2-5 steps on a logarithmic one, few enough to be read. */
export function ticks(axis: Axis, wanted = 7): number[] {
  return axis.logarithmic ? logTicks(axis, wanted) : linearTicks(axis, wanted);
}

function logTicks(axis: Axis, wanted: number): number[] {
  const between = (mantissas: readonly number[]): number[] => {
    const found: number[] = [];
    for (let e = Math.floor(Math.log10(axis.low)); e <= Math.ceil(Math.log10(axis.high)); e++)
      for (const m of mantissas) {
        const value = Number(`${m}e${e}`);
        if (value >= axis.low * (1 - 1e-9) && value <= axis.high * (1 + 1e-9)) found.push(value);
      }
    return found;
  };
  for (const mantissas of [[1, 2, 3, 4, 5, 6, 8], [1, 2, 5], [1, 3], [1]]) {
    const found = between(mantissas);
    if (found.length <= wanted + 1 && found.length >= 2) return found;
  }
  const sparse = between([1, 2, 5]);
  const decades = between([1]);
  if (decades.length > wanted) return decades.filter((_, i) => i % Math.ceil(decades.length / wanted) === 0);
  return sparse.length > 0 ? sparse : [axis.low, axis.high];
}

function linearTicks(axis: Axis, wanted: number): number[] {
  const rough = (axis.high - axis.low) / wanted;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((m) => m * power >= rough) ?? 10) * power;
  const found: number[] = [];
  for (let k = Math.ceil(axis.low / step - 1e-9); k * step <= axis.high * (1 + 1e-12) + 1e-12; k++)
    found.push(k * step + 0);
  return found;
}

/** A tick as text: three figures, no exponent between 0.001 and 99,999. */
export function tickText(value: number): string {
  if (value === 0) return "0";
  const size = Math.abs(value);
  if (size >= 1e5 || size < 1e-3) return value.toExponential(0).replace("e+", "e");
  return String(Number(value.toPrecision(3)));
}
