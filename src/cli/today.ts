import { invalid } from "#units";

/** The day handed in, checked, or today's. */
export function day(text: string | undefined): string {
  if (text === undefined) return new Date().toISOString().slice(0, 10);
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text) || Number.isNaN(Date.parse(text))) invalid("date", text, "", "YYYY-MM-DD");
  return text;
}
