import { invalid } from "#units";

export type XmlAttributes = Readonly<Record<string, string | number | null | undefined>>;

/** Characters that XML 1.0 refuses even when escaped: control characters other than tab, line feed, return. */
function isForbidden(code: number): boolean {
  return code < 0x20 && code !== 0x09 && code !== 0x0a && code !== 0x0d;
}

/** Text made fit to stand in XML or HTML, in content and inside double or single quotes. */
export function escapeXml(text: string): string {
  let out = "";
  for (const character of text) {
    const code = character.codePointAt(0)!;
    if (isForbidden(code) || (code >= 0xd800 && code <= 0xdfff) || code === 0xfffe || code === 0xffff) continue;
    if (character === "&") out += "&amp;";
    else if (character === "<") out += "&lt;";
    else if (character === ">") out += "&gt;";
    else if (character === '"') out += "&quot;";
    else if (character === "'") out += "&#39;";
    else out += character;
  }
  return out;
}

/** A coordinate with at most three decimals; throws rather than let NaN or infinity into a picture. */
export function coordinate(value: number): string {
  if (!Number.isFinite(value)) return invalid("coordinate", value, "", "must be finite");
  const text = value.toFixed(3);
  const short = text.replace(/\.?0+$/, "");
  return short === "-0" ? "0" : short;
}

/** One element; `children` are already markup, attributes are escaped here, null ones are left out. */
export function element(name: string, attributes: XmlAttributes, ...children: readonly string[]): string {
  let open = `<${name}`;
  for (const [key, value] of Object.entries(attributes)) {
    if (value === null || value === undefined) continue;
    open += ` ${key}="${typeof value === "number" ? coordinate(value) : escapeXml(value)}"`;
  }
  const inner = children.join("");
  return inner === "" ? `${open}/>` : `${open}>${inner}</${name}>`;
}
