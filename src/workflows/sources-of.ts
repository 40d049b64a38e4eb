import type { PartModel } from "./part-model.ts";

/** Sources of the formulas that every prediction rests on. */
const FORMULAS = ["carslaw-jaeger-1959", "own"] as const;

/** Ids of all sources behind a part's answers: formulas, metal, layers. */
export function sourcesOf(model: PartModel): string[] {
  const ids = new Set<string>(FORMULAS);
  for (const { stack } of model.part.mixture) {
    collect(stack.metal, ids);
    for (const { kind } of stack.layers) collect(kind, ids);
  }
  return [...ids].sort();
}

/** Every `source` named anywhere inside a library entry. */
function collect(value: unknown, ids: Set<string>): void {
  if (value === null || typeof value !== "object") return;
  for (const [key, inner] of Object.entries(value)) {
    if (key === "source" && typeof inner === "string") ids.add(inner);
    else collect(inner, ids);
  }
}
