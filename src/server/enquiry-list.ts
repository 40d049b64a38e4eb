import type { EnquiryListWire } from "#contract";
import type { Store } from "#store";

/** Lines of all enquiries, last saved first; the database counts, and only when the store has grown since. */
export function enquiryLister(store: Store): () => Promise<EnquiryListWire> {
  let kept: { readonly at: string; readonly list: EnquiryListWire } | null = null;
  return () =>
    store.read(async (reader) => {
      const at = JSON.stringify(await reader.lastRows());
      if (kept?.at !== at) {
        const lines = await reader.enquiryLines();
        const enquiries = lines.map(({ record, lasers, ...line }) => ({
          ...line,
          enquiry: record,
          lasers: [...lasers],
        }));
        kept = { at, list: { enquiries } };
      }
      return kept.list;
    });
}
