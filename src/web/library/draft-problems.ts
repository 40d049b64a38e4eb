import { createLibrary, type LibraryFile, libraryFileSchema } from "#library";
import { formatRange, InvalidInput, unitLabel } from "#units";
import { words } from "../words/index.ts";
import { type EntryDraft, fileOf } from "./entry-draft.ts";
import { type Field, fieldKey, groupsOf } from "./fields.ts";
import { type Path, placeName } from "./tree.ts";

/** One sentence for every place of a draft that is wrong; places of the head stand under `head.`. */
export type Problems = Readonly<Record<string, string>>;

const say = words.library;
const headFields = ["source", "citation", "fromMemory", "note"];

/** The field that a place belongs to. */
function fieldAt(draft: EntryDraft, place: string): Field | undefined {
  const fields = groupsOf(draft.shelf, draft.entry).flatMap((g) => g.fields);
  return fields.find((f) => place === placeName(f.path) || place.startsWith(`${placeName(f.path)}.`));
}

/** A rule of the file in the words and units of the page. */
export function plainRule(rule: string, field: Field | undefined): string {
  const range = /^must be (\S+) to (\S+) (\S+)$/.exec(rule);
  if (range !== null && field !== undefined && "panel" in field && range[3] === field.si)
    // In the unit of the field, which stays as it is whatever the pages show.
    return say.rules.within(formatRange(Number(range[1]), Number(range[2]), field.panel));
  if (rule.startsWith("already in the library")) return say.rules.taken;
  const named = rule.replace(/[a-z]+(?:[A-Z][a-z]+)+/g, (name) => say.fields[name]?.toLowerCase() ?? name);
  return `${named.charAt(0).toUpperCase()}${named.slice(1)}.`;
}

/** `metals[0].density.low` as its steps. */
export const stepsOf = (name: string): Path =>
  name.split(/[.[\]]+/).flatMap((step) => (step === "" ? [] : [/^\d+$/.test(step) ? Number(step) : step]));

/** Where the page shows what the file refuses at these steps. */
function placeOf(draft: EntryDraft, steps: Path): string {
  if (steps[0] === draft.shelf && steps[1] === draft.index) return placeName(steps.slice(2));
  return headFields.includes(String(steps[0])) ? `head.${String(steps[0])}` : "";
}

/** A refusal in the server's words `invalid <place>: <value> (<rule>)` as place and sentence; null for another line. */
export function refusedAt(draft: EntryDraft, line: string): readonly [place: string, sentence: string] | null {
  const found = /^invalid (\S+): .* \((.*)\)$/.exec(line);
  if (found === null) return null;
  const place = placeOf(draft, stepsOf(found[1] ?? ""));
  return [place, place === "" ? line : plainRule(found[2] ?? "", fieldAt(draft, place))];
}

/** Everything that keeps a draft from being kept, found before it is sent; the rest of the store's files are `others`. */
export function problemsOf(draft: EntryDraft, others: readonly LibraryFile[]): Problems {
  const found: Record<string, string> = {};
  const note = (place: string, sentence: string) => {
    found[place] ??= sentence;
  };
  for (const [place, text] of Object.entries(draft.typed)) {
    const unit = (() => {
      const field = fieldAt(draft, place);
      return field !== undefined && "panel" in field ? unitLabel(field.panel) : "";
    })();
    note(place, text.trim() === "" ? say.rules.missing : say.rules.number(text, unit));
  }
  if (draft.head.citation.trim() === "" && draft.base?.citation === undefined && draft.base === null)
    note("head.citation", say.rules.citation);
  const file = fileOf(draft);
  const parsed = libraryFileSchema.safeParse(file);
  for (const issue of parsed.error?.issues ?? []) {
    const place = placeOf(draft, issue.path as Path);
    const rule = issue.code === "invalid_type" ? say.rules.missing : plainRule(issue.message, fieldAt(draft, place));
    // What is typed and no number is said already, at its own place.
    if (!Object.keys(draft.typed).some((at) => at === place || at.startsWith(`${place}.`))) note(place, rule);
  }
  if (Object.keys(found).length > 0) return found;
  try {
    createLibrary([...others, file]);
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error;
    const place = placeOf(draft, stepsOf(error.field));
    note(place, place === "" ? error.message : plainRule(error.rule, fieldAt(draft, place)));
  }
  return found;
}

/** Labels of the fields in which two versions of an entry differ. */
export function changesBetween(draft: EntryDraft, before: object | null): string[] {
  if (before === null) return [];
  const { entry } = draft;
  const same = (path: Path) => JSON.stringify(readStep(entry, path)) === JSON.stringify(readStep(before, path));
  return groupsOf(draft.shelf, entry)
    .flatMap((g) => g.fields)
    .filter((f) => !same(f.path))
    .map((f) => say.fields[fieldKey(f.path)] ?? fieldKey(f.path));
}

const readStep = (tree: unknown, path: Path): unknown =>
  path.reduce<unknown>((at, key) => (at as Record<string, unknown> | null | undefined)?.[key], tree);
