/** JSON Schema as far as the description uses it. */
export interface Shape {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly format?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Shape>>;
  readonly required?: readonly string[];
  readonly items?: Shape | boolean;
  readonly prefixItems?: readonly Shape[];
  readonly additionalProperties?: Shape | boolean;
  readonly anyOf?: readonly Shape[];
  readonly oneOf?: readonly Shape[];
  readonly allOf?: readonly Shape[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly default?: unknown;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
  readonly maxLength?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
}

/** Bounds that the number format itself sets say nothing. */
const meant = (bound: number | undefined): bound is number => bound !== undefined && Math.abs(bound) < 2 ** 53 - 1;

function bounds(shape: Shape): string {
  const { minimum, maximum, exclusiveMinimum, exclusiveMaximum, maxLength, minItems, maxItems } = shape;
  const said = [
    ...(meant(exclusiveMinimum) ? [`above ${exclusiveMinimum}`] : meant(minimum) ? [`from ${minimum}`] : []),
    ...(meant(exclusiveMaximum) ? [`below ${exclusiveMaximum}`] : meant(maximum) ? [`to ${maximum}`] : []),
    ...(maxLength === undefined ? [] : [`at most ${maxLength} characters`]),
    ...(minItems === undefined ? [] : [`at least ${minItems}`]),
    ...(maxItems === undefined ? [] : [`at most ${maxItems}`]),
  ];
  return said.length === 0 ? "" : ` (${said.join(", ")})`;
}

function objectText({ properties = {}, required = [] }: Shape, indent: string): string {
  const inner = `${indent}  `;
  const lines = Object.entries(properties).map(([name, shape]) => {
    const { description, default: usual } = shape;
    const notes = [
      ...(description === undefined ? [] : [description]),
      ...(usual === undefined ? [] : [`${JSON.stringify(usual)} when left out`]),
    ];
    const note = notes.length === 0 ? "" : `  // ${notes.join("; ")}`;
    return `${inner}${name}${required.includes(name) ? "" : "?"}: ${shapeText(shape, inner)}${note}`;
  });
  return lines.length === 0 ? "{}" : `{\n${lines.join("\n")}\n${indent}}`;
}

/** A shape in lines that a person reads; `→name` stands for a shape that is told elsewhere. */
export function shapeText(shape: Shape, indent = ""): string {
  const { $ref, anyOf, oneOf, allOf, properties, items, prefixItems, additionalProperties, type } = shape;
  if ($ref !== undefined) return `→${$ref.slice($ref.lastIndexOf("/") + 1)}`;
  if (shape.const !== undefined) return JSON.stringify(shape.const);
  if (shape.enum !== undefined) return shape.enum.map((v) => JSON.stringify(v)).join(" | ");
  const either = anyOf ?? oneOf;
  if (either !== undefined) return either.map((one) => shapeText(one, indent)).join(" | ");
  if (allOf !== undefined) return allOf.map((one) => shapeText(one, indent)).join(" & ");
  if (properties !== undefined) return objectText(shape, indent);
  if (prefixItems !== undefined) return `[${prefixItems.map((one) => shapeText(one, indent)).join(", ")}]`;
  if (typeof items === "object") return `list of ${shapeText(items, indent)}${bounds(shape)}`;
  if (typeof additionalProperties === "object" && Object.keys(additionalProperties).length > 0)
    return `by name: ${shapeText(additionalProperties, indent)}`;
  if (type === undefined) return "anything";
  return `${typeof type === "string" ? type : type.join(" | ")}${bounds(shape)}`;
}
