import { isTree } from "./tree.ts";

/** Sources of an entry in the order in which its figures name them. */
export function sourcesIn(value: unknown, found: string[] = []): string[] {
  if (Array.isArray(value)) for (const inner of value) sourcesIn(inner, found);
  else if (isTree(value)) {
    if (typeof value.source === "string" && !found.includes(value.source)) found.push(value.source);
    for (const inner of Object.values(value)) sourcesIn(inner, found);
  }
  return found;
}
