import { type Dimension, dimensionless, multiplyDimensions } from "./dimension.ts";
import { prefixFactor, type UnitEntry, unitTable } from "./unit-table.ts";

export interface Unit {
  /** normalised spelling, for example "J/cm2" */
  readonly symbol: string;
  /** SI value = value · factor + offset */
  readonly factor: number;
  readonly offset: number;
  readonly dimension: Dimension;
}

const superscripts = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/** One spelling for every way of writing: micro signs, raised digits, multiplication dots, spaces. */
function normalise(text: string): string {
  return text
    .trim()
    .replace(/[µμ]/g, "u")
    .replace(/⁻/g, "-")
    .replace(/[⁰¹²³⁴-⁹]/g, (digit) => String(superscripts.indexOf(digit)))
    .replace(/[·⋅∙×*]/g, "·")
    .replace(/[−–]/g, "-")
    .replace(/\^/g, "")
    .replace(/\s*([·/()])\s*/g, "$1")
    .replace(/\s+/g, "·");
}

function lookUp(symbol: string): UnitEntry | null {
  const plain = unitTable.get(symbol);
  if (plain !== undefined) return plain;
  const base = unitTable.get(symbol.slice(1));
  const prefix = symbol[0] ?? "";
  const scale = prefixFactor[prefix];
  if (base === undefined || scale === undefined || !base.prefixes.includes(prefix)) return null;
  return { ...base, factor: base.factor * scale };
}

const token = /^(?:(1)(?![\d.])|([A-Za-z°℃%]+)(-?\d)?)/;

interface Product {
  factor: number;
  dimension: Dimension;
  offset: number;
  parts: number;
}

/** term := factor (("·" | "/") factor)*, read from left to right. */
function readProduct(text: string): { product: Product; rest: string } | null {
  const product: Product = { factor: 1, dimension: dimensionless, offset: 0, parts: 0 };
  let rest = text;
  let power = 1;
  for (;;) {
    if (rest.startsWith("(")) {
      const inner = readProduct(rest.slice(1));
      if (inner === null || !inner.rest.startsWith(")")) return null;
      include(product, inner.product, power);
      rest = inner.rest.slice(1);
    } else {
      const match = token.exec(rest);
      if (match === null) return null;
      if (match[1] === undefined) {
        const found = lookUp(match[2] ?? "");
        if (found === null) return null;
        const exponent = match[3] === undefined ? 1 : Number(match[3]);
        include(product, { ...found, parts: 1 }, power * exponent);
        if (power * exponent !== 1) product.offset = 0;
      } else {
        product.parts += 1;
      }
      rest = rest.slice(match[0].length);
    }
    if (rest.startsWith("·")) power = 1;
    else if (rest.startsWith("/")) power = -1;
    else return { product, rest };
    rest = rest.slice(1);
  }
}

/** Inside a product a temperature is a difference, so only a unit that stands alone keeps its zero. */
function include(
  product: Product,
  other: { factor: number; dimension: Dimension; offset: number; parts: number },
  power: number,
): void {
  product.offset = product.parts === 0 ? other.offset : 0;
  product.factor *= other.factor ** power;
  product.dimension = multiplyDimensions(product.dimension, other.dimension, power);
  product.parts += other.parts;
}

const cache = new Map<string, Unit | null>();
const cacheLimit = 500;

/**
 * Reads a unit such as "um", "µm", "J/cm²", "W/(m·K)", "m2/h", "degC", "%" or "" (a plain number).
 * Returns null when it is not a unit that is known here.
 */
export function parseUnit(text: string): Unit | null {
  const held = cache.get(text);
  if (held !== undefined) return held;
  const symbol = normalise(text);
  let unit: Unit | null = null;
  if (symbol === "" || symbol === "1") {
    unit = { symbol: "", factor: 1, offset: 0, dimension: dimensionless };
  } else if (symbol.length <= 40) {
    const read = readProduct(symbol);
    if (read !== null && read.rest === "") {
      const { factor, offset, dimension, parts } = read.product;
      unit = { symbol, factor, offset: parts === 1 ? offset : 0, dimension };
    }
  }
  if (cache.size >= cacheLimit) cache.clear();
  cache.set(text, unit);
  return unit;
}
