import { fromSI, formatNumber, toSI } from "#units";

/** Digits that a typed number keeps: more than any figure of a data sheet has. */
const DIGITS = 9;

/** A number of the file as it is typed in a panel's unit: plain digits, no unit. */
export function typedNumber(valueSI: unknown, panel: string): string {
  if (typeof valueSI !== "number" || !Number.isFinite(valueSI)) return "";
  const value = Number(fromSI(valueSI, panel).toPrecision(DIGITS));
  const size = Math.abs(value);
  return size !== 0 && (size < 1e-4 || size >= 1e9) ? value.toExponential().replace("e+", "e") : String(value);
}

/**
 * The SI value of a number typed in a panel's unit, null for what is none. A comma before one, two or four and more
 * digits is a decimal one; before three it could stand for thousands and is not guessed.
 */
export function readTyped(text: string, panel: string): number | null {
  const plain = text
    .replace(/[\s\u00a0\u202f]/g, "")
    .replace(/^([+\-−]?\d*),(\d{1,2}|\d{4,})$/, "$1.$2")
    .replace("−", "-")
    .replace(/[×x]10\^?/i, "e");
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(plain)) return null;
  const value = toSI(Number(plain), panel);
  return Number.isFinite(value) ? Number(value.toPrecision(12)) : null;
}

/** A number without a unit, for the places that name the unit beside it. */
export const bareNumber = (valueSI: number, panel: string, digits = 4): string =>
  formatNumber(fromSI(valueSI, panel), digits);

/** The points of a curve as they are typed: temperature in °C and value in the panel's unit, one pair a line. */
export const typedPoints = (
  { temperature, value }: { readonly temperature: readonly number[]; readonly value: readonly number[] },
  panel: string,
): string => temperature.map((t, i) => `${typedNumber(t, "degC")}  ${typedNumber(value[i], panel)}`).join("\n");

/** The points in SI (K and the unit of the file), or the first line that is not two numbers. */
export function readPoints(text: string, panel: string): (readonly [number, number])[] | string {
  const points: (readonly [number, number])[] = [];
  for (const line of text.split("\n").map((l) => l.trim())) {
    if (line === "") continue;
    const [warm, value, ...more] = line.split(/[\s;]+/);
    const t = readTyped(warm ?? "", "degC");
    const v = readTyped(value ?? "", panel);
    if (t === null || v === null || more.length > 0) return line;
    points.push([t, v]);
  }
  return points;
}
