import type { z } from "zod";
import { InvalidInput } from "#units";

/** Several lines of bad input at once: the message is the first line, `all` holds every line in order. */
export class InvalidInputs extends InvalidInput {
  readonly all: readonly string[];
  constructor(problems: readonly InvalidInput[]) {
    const first = problems[0]!;
    super(first.field, first.value, first.unit, first.rule);
    this.all = problems.map((problem) => problem.message);
  }
}

const endings: readonly (readonly [string, string])[] = [
  ["_m2_per_h", "m2/h"],
  ["_J_per_cm2", "J/cm2"],
  ["_W_per_cm2", "W/cm2"],
  ["_J_per_m", "J/m"],
  ["_mm_per_s", "mm/s"],
  ["_percent", "%"],
  ["_degC", "degC"],
  ["_kHz", "kHz"],
  ["_um", "um"],
  ["_mm", "mm"],
  ["_m2", "m2"],
  ["_ns", "ns"],
  ["_VA", "VA"],
  ["_W", "W"],
  ["_K", "K"],
  ["_s", "s"],
];

/** Unit that the name of a field in a file carries, "" when it carries none. */
export function unitOfField(name: string): string {
  return endings.find(([ending]) => name.endsWith(ending))?.[1] ?? "";
}

/** `["parts", 0, "layers", 1, "kind"]` as `parts[0].layers[1].kind`. */
function fieldName(path: readonly PropertyKey[], root: string): string {
  let name = "";
  for (const step of path) {
    if (typeof step === "number") name += `[${step}]`;
    else name += name === "" ? printable(String(step)) : `.${printable(String(step))}`;
  }
  return name === "" ? root : name;
}

const printable = (text: string): string => {
  // Control characters would break the promise of one line.
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  const flat = text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, " ");
  return flat.length > 60 ? `${flat.slice(0, 57)}...` : flat;
};

/** A value as one short piece of text for a message. */
export function shown(value: unknown): string {
  if (value === undefined) return "missing";
  if (value === null) return "null";
  if (typeof value === "string") return value === "" ? '""' : printable(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === "object") return "an object";
  return printable(String(value));
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  let value = input;
  for (const step of path) {
    if (value === null || typeof value !== "object" || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[step];
  }
  return value;
}

/** One problem in the house form; the unit stands beside numbers only, since a text carries its own. */
export function problem(input: unknown, path: readonly PropertyKey[], rule: string, root: string): InvalidInput {
  const value = valueAt(input, path);
  const unit = typeof value === "number" ? unitOfField(String(path.at(-1) ?? "")) : "";
  return new InvalidInput(fieldName(path, root), shown(value), unit, rule);
}

const knownFields = (schema: unknown): string => {
  const shape = (schema as { _zod?: { def?: { shape?: object } } } | undefined)?._zod?.def?.shape;
  return shape === undefined ? "unknown field" : `unknown field; known: ${Object.keys(shape).join(", ")}`;
};

const kinds: Readonly<Record<string, string>> = {
  number: "a number",
  int: "a whole number",
  string: "a text",
  boolean: "true or false",
  array: "a list",
  object: "an object",
  null: "null",
  record: "an object",
};

/** Rules in plain words for everything that zod itself finds. */
function ruleOf(issue: z.core.$ZodRawIssue): string {
  switch (issue.code) {
    case "invalid_type":
      if (typeof issue.input === "number" && !Number.isFinite(issue.input)) return "must be a finite number";
      return `must be ${kinds[String(issue.expected)] ?? String(issue.expected)}`;
    case "invalid_value":
      return (issue.values as unknown[]).length === 1
        ? `must be ${JSON.stringify((issue.values as unknown[])[0])}`
        : `must be one of: ${(issue.values as unknown[]).map((v) => String(v)).join(", ")}`;
    case "too_small":
      if (issue.origin === "array") return `needs at least ${issue.minimum} of them`;
      if (issue.origin === "string") return "must not be empty";
      return issue.inclusive ? `must be at least ${issue.minimum}` : `must be greater than ${issue.minimum}`;
    case "too_big":
      if (issue.origin === "array") return `at most ${issue.maximum} of them`;
      if (issue.origin === "string") return `at most ${issue.maximum} characters`;
      return issue.inclusive ? `must be at most ${issue.maximum}` : `must be less than ${issue.maximum}`;
    case "unrecognized_keys":
      return knownFields(issue.inst);
    case "invalid_format":
      return `must be ${issue.format === "regex" ? "in the form that the schema states" : `a ${issue.format}`}`;
    default:
      return "does not fit the schema";
  }
}

/**
 * Checks outside data against a schema. Every problem becomes one line
 * `invalid parts[0].layers[1].thickness_um: -3 um (must be greater than 0)`.
 * Throws InvalidInputs; `root` names the whole when the problem is at its top.
 */
export function validate<S extends z.ZodType>(schema: S, input: unknown, root: string): z.output<S> {
  const result = schema.safeParse(input, { error: ruleOf });
  if (result.success) return result.data;
  const problems = result.error.issues.flatMap((issue) =>
    issue.code === "unrecognized_keys"
      ? issue.keys.map((key) => problem(input, [...issue.path, key], issue.message, root))
      : [problem(input, issue.path, issue.message, root)],
  );
  throw new InvalidInputs(problems);
}
