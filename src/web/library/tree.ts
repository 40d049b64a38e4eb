/** An entry of the library as a form sees it: names, numbers, lists and what they stand in. */
export interface Tree {
  readonly [key: string]: unknown;
}

export type Path = readonly (string | number)[];

/** Name of a place: `optics.mid.absorption`, `lenses.0.focalLength`. */
export const placeName = (path: Path): string => path.join(".");

export const isTree = (value: unknown): value is Tree =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** What stands at a place; undefined where nothing does. */
export function readAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (at, key) =>
      Array.isArray(at) ? at[Number(key)] : isTree(at) && Object.hasOwn(at, String(key)) ? at[String(key)] : undefined,
    value,
  );
}

/** A copy with another value at a place; `undefined` takes it away. What lies beside it is shared, not copied. */
export function writeAt(value: unknown, path: Path, next: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return next;
  if (Array.isArray(value)) {
    const list = [...value];
    if (rest.length === 0 && next === undefined) list.splice(Number(key), 1);
    else list[Number(key)] = writeAt(list[Number(key)], rest, next);
    return list;
  }
  const { [key]: before, ...others } = isTree(value) ? value : {};
  if (rest.length === 0 && next === undefined) return others;
  // A key that is there keeps its place among the others.
  return { ...(isTree(value) ? value : {}), [key]: writeAt(before, rest, next) };
}

export const writeTree = (tree: Tree, path: Path, next: unknown): Tree => writeAt(tree, path, next) as Tree;
