import { invalid } from "#units";

/** Languages that a paper can be set in. */
export type Language = "en" | "de";

export const languages: readonly Language[] = ["en", "de"];

/** Returns the language, or throws InvalidInput in one line that says which there are. */
export function requireLanguage(value: unknown): Language {
  const found = languages.find((language) => language === value);
  if (found !== undefined) return found;
  return invalid("language", value, "", "must be en or de; the font of the papers has no Chinese letters");
}
