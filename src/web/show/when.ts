/** Made once: making one takes longer than a row of a list does. */
const form = new Intl.DateTimeFormat(undefined, { dateStyle: "medium", timeStyle: "short" });

/** An instant as a person reads it, in the language of the browser. */
export function whenText(instant: string): string {
  const date = new Date(instant);
  if (Number.isNaN(date.getTime())) return instant;
  return form.format(date);
}
