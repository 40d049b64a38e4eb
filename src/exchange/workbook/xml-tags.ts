/**
 * Inside of a tag: attributes in either kind of quotation marks, which may hold a `>`. XML allows no `<` there, so that
 * a search stops at the next tag and stays quick on a file that is not XML at all.
 */
const inside = `(?:"[^"<]*"|'[^'<]*'|[^<>"'])*`;
/** Anything up to the next tag of the same name. */
const upTo = (name: string): string => String.raw`(?:(?!<${name}[\s>/]).)*?`;

/** Opening and empty tags of these names; group 1 is the inside. */
export const tagsOf = (...names: readonly string[]): RegExp =>
  new RegExp(String.raw`<(?:${names.join("|")})(?=[\s/>])(${inside})>`, "g");

/** Whole elements of a name that are not empty tags; group 1 is the inside of the tag, group 2 what it holds. */
export const elementsOf = (name: string): RegExp =>
  new RegExp(String.raw`<${name}(?=[\s>])(${inside})(?<!/)>(${upTo(name)})</${name}\s*>`, "gs");

/** Value of an attribute in the inside of a tag, null where it is not there. */
export function attribute(tag: string, name: string): string | null {
  const found = new RegExp(String.raw`(?:^|\s)${name}\s*=\s*(?:"([^"]*)"|'([^']*)')`).exec(tag);
  return found === null ? null : (found[1] ?? found[2] ?? "");
}

/** False where a tag does not end before the next one begins: readers lose their way, or their time, on such a text. */
export const tagsEnd = (xml: string): boolean => !/<[^<>]*(?:<|$)/.test(xml);
