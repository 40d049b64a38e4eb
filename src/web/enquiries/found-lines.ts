import type { EnquiryLine } from "../api/enquiries.ts";

const texts = new WeakMap<EnquiryLine, string>();

/** Everything that a line is found by, worked out once: title, customer, parts, metals, layers, lasers. */
function textOf(item: EnquiryLine): string {
  const known = texts.get(item);
  if (known !== undefined) return known;
  const parts = item.enquiry.parts.flatMap((p) => [
    p.name,
    p.material,
    ...(p.layers ?? []).flatMap((l) => [l.kind, l.colour]),
  ]);
  const text = [item.id, item.enquiry.title, item.enquiry.customer, ...parts, ...item.lasers, ...item.names]
    .join(" ")
    .toLowerCase();
  texts.set(item, text);
  return text;
}

/** Lines that hold every word of the search, in any order; all of them for an empty one. */
export function foundLines(lines: readonly EnquiryLine[], search: string): readonly EnquiryLine[] {
  const wanted = search.trim().toLowerCase().split(/\s+/).filter(Boolean);
  return wanted.length === 0 ? lines : lines.filter((line) => wanted.every((word) => textOf(line).includes(word)));
}
