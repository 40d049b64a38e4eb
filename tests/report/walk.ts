import type { Block, ReportModel } from "#report";

export function allBlocks(model: ReportModel): Block[] {
  return [...model.answer, ...model.details].flatMap((section) => [...section.blocks]);
}

/** Every string of a value, wherever it stands. */
export function allText(value: unknown): string[] {
  if (typeof value === "string") return [value];
  if (Array.isArray(value)) return value.flatMap(allText);
  if (typeof value === "object" && value !== null) return Object.values(value).flatMap(allText);
  return [];
}

/** The same data with every free text replaced, so that a test can put something hostile everywhere at once. */
export function withText<T>(value: T, replace: (text: string) => string): T {
  const skip = new Set([
    "kind",
    "axis",
    "verdict",
    "shortfall",
    "delivery",
    "colour",
    "group",
    "role",
    "lead",
    "chromate",
    "nearestEdge",
    "distribution",
    "mayHold",
  ]);
  const walk = (node: unknown, key: string): unknown => {
    if (typeof node === "string") return skip.has(key) ? node : replace(node);
    if (Array.isArray(node)) return node.map((item) => walk(item, key));
    if (typeof node === "object" && node !== null)
      return Object.fromEntries(Object.entries(node).map(([k, v]) => [k, walk(v, k)]));
    return node;
  };
  return walk(value, "") as T;
}
