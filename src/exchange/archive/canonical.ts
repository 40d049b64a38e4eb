/** JSON text that is the same for the same content, whatever the order of its fields. */
export function canonical(value: unknown): string {
  return JSON.stringify(value, (_, inner: unknown) =>
    inner !== null && typeof inner === "object" && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}

/** Every text that stands anywhere inside a value. */
export function textsIn(value: unknown, found: Set<string> = new Set()): Set<string> {
  if (typeof value === "string") found.add(value);
  else if (value !== null && typeof value === "object") for (const inner of Object.values(value)) textsIn(inner, found);
  return found;
}
