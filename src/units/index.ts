export { InvalidInput, invalid, invalidLine, withPlace } from "./invalid-input.ts";
export {
  requireFinite,
  requireInRange,
  requireInteger,
  requireNonNegative,
  requireOneOf,
  requirePositive,
  requireShare,
  requireText,
} from "./require.ts";
export { type Dimension, describeDimension, sameDimension } from "./dimension.ts";
export { parseUnit, type Unit } from "./parse-unit.ts";
export { fromSI, toSI } from "./convert.ts";
export { parseNumber, parseQuantity } from "./parse-quantity.ts";
export { formatNumber, formatQuantity, formatRange, noValue, unitLabel } from "./format-quantity.ts";
