import { shopGroups } from "./shop-fields.ts";
import type { Typed } from "./shop-text.ts";

/** How many figures of time and money are the shop's own, and for how many an invented example still stands. */
export function figuresOf(typed: Typed): { readonly own: number; readonly missing: number } {
  const paths = shopGroups("").flatMap(({ fields }) => fields.filter((f) => f.example !== null).map((f) => f.path));
  const own = paths.filter((path) => (typed[path] ?? "") !== "").length;
  return { own, missing: paths.length - own };
}
