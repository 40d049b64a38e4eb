/** Longest part of an id that is made from names: a number goes behind it, and ids have at most 80 characters. */
const LONGEST = 74;

/**
 * The first name of a trial that is not taken: base, base-2, base-3 … Parts of different enquiries bear the same ids
 * ("part-1"), and a store keeps one trial of a name: so the enquiry is named too.
 */
export function freshTrialId(
  about: { readonly enquiryId: string; readonly partId: string; readonly setupId: string },
  taken: readonly string[],
): string {
  const rest = `-${about.partId}-${about.setupId}`.slice(-LONGEST + 20);
  const base = `${about.enquiryId.slice(0, LONGEST - rest.length)}${rest}`;
  if (!taken.includes(base)) return base;
  let n = 2;
  while (taken.includes(`${base}-${n}`)) n++;
  return `${base}-${n}`;
}
