/** JSON Schema as far as bodies of the description use it. */
export interface BodyShape {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, BodyShape>>;
  readonly items?: BodyShape | boolean;
  readonly prefixItems?: readonly BodyShape[];
  readonly anyOf?: readonly BodyShape[];
  readonly oneOf?: readonly BodyShape[];
  readonly allOf?: readonly BodyShape[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly default?: unknown;
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly format?: string;
}

/** Some value of a shape, with every field that it knows, so that a mutation can reach each of them. */
export function exampleOf(shape: BodyShape, named: Readonly<Record<string, BodyShape>>, depth = 0): unknown {
  if (depth > 12) return null;
  const inner = (one: BodyShape) => exampleOf(one, named, depth + 1);
  if (shape.$ref !== undefined) return inner(named[shape.$ref.slice(shape.$ref.lastIndexOf("/") + 1)] ?? {});
  if (shape.const !== undefined) return shape.const;
  if (shape.enum !== undefined) return shape.enum[0];
  const [either] = shape.anyOf ?? shape.oneOf ?? shape.allOf ?? [];
  if (either !== undefined) return inner(either);
  if (shape.properties !== undefined)
    return Object.fromEntries(Object.entries(shape.properties).map(([key, one]) => [key, inner(one)]));
  if (shape.prefixItems !== undefined) return shape.prefixItems.map(inner);
  if (typeof shape.items === "object") return [inner(shape.items)];
  const type = typeof shape.type === "string" ? shape.type : shape.type?.[0];
  if (type === "integer" || type === "number") return shape.minimum ?? (shape.exclusiveMinimum ?? 0) + 1;
  if (type === "boolean") return true;
  if (type === "array") return [];
  if (type === "object") return {};
  return type === "null" ? null : "brackets-pulsed";
}
