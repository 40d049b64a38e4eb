import { isSource } from "#sources";
import { invalid } from "#units";
import { libraryFileSchema } from "./file-schema.ts";
import type { LibraryFile } from "./file-shape.ts";

type Issue = NonNullable<ReturnType<typeof libraryFileSchema.safeParse>["error"]>["issues"][number];

/** `metals[0].density.unit` from its parts. */
function pathName(path: readonly PropertyKey[]): string {
  const text = path.map((p) => (typeof p === "number" ? `[${p}]` : `.${String(p)}`)).join("");
  return text.startsWith(".") ? text.slice(1) : text || "library file";
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (at, key) => (at !== null && typeof at === "object" ? (at as Record<PropertyKey, unknown>)[key] : undefined),
    input,
  );
}

/** The rule that an issue of the schema breaks, in words. */
function ruleOf(issue: Issue): string {
  if (issue.code === "unrecognized_keys") return `unknown field: ${issue.keys.join(", ")}`;
  if (issue.code === "invalid_type")
    return `must be ${issue.expected === "int" ? "a whole number" : `of type ${issue.expected}`}`;
  if (issue.code === "invalid_value") {
    const allowed = issue.values.map(String);
    return allowed.length === 1 ? `must be ${allowed[0]}` : `one of: ${allowed.join(", ")}`;
  }
  return issue.message;
}

function refuseRepeats(file: LibraryFile): void {
  for (const group of ["metals", "layers", "setups", "fume"] as const) {
    const ids = (file[group] ?? []).map((entry) => entry.id);
    ids.forEach((id, i) => {
      if (ids.indexOf(id) !== i) invalid(`${group}[${i}].id`, id, "", "must not stand twice in one file");
    });
  }
}

/** Every source named in the file is in the bibliography or is the file's own, with its citation. */
function refuseUnknownSources(file: LibraryFile): void {
  if (!isSource(file.source) && file.citation === undefined) {
    invalid("source", file.source, "", "unknown source: add its citation");
  }
  const walk = (value: unknown, path: string): void => {
    if (value === null || typeof value !== "object") return;
    for (const [key, inner] of Object.entries(value)) {
      const at = Array.isArray(value) ? `${path}[${key}]` : path === "" ? key : `${path}.${key}`;
      if (key === "source" && typeof inner === "string" && inner !== file.source && !isSource(inner)) {
        invalid(at, inner, "", "unknown source");
      }
      walk(inner, at);
    }
  };
  walk(file, "");
}

/**
 * A library file from parsed JSON.
 * @throws InvalidInput with the first rule it breaks; the file is refused whole
 */
export function parseLibraryFile(input: unknown): LibraryFile {
  const parsed = libraryFileSchema.safeParse(input);
  if (!parsed.success) {
    const issue = parsed.error.issues[0]!;
    invalid(pathName(issue.path), valueAt(input, issue.path), "", ruleOf(issue));
  }
  const file = parsed.data as LibraryFile;
  refuseRepeats(file);
  refuseUnknownSources(file);
  return file;
}
