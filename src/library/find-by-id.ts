import { invalid } from "#units";

/**
 * The entry of one id.
 * @throws InvalidInput naming the known ids: `invalid metal: unobtainium (one of: ...)`
 */
export function findById<T extends { readonly id: string }>(entries: readonly T[], id: string, name: string): T {
  const found = entries.find((entry) => entry.id === id);
  if (found === undefined) invalid(name, id, "", `one of: ${entries.map((entry) => entry.id).join(", ")}`);
  return found;
}
