import type { EnquiryListWire } from "#contract";
import type { Library } from "#library";
import type { EnquiryLine, Store } from "#store";
import { storeLibrary } from "./store-library.ts";

/** Lines of all enquiries, last saved first; the database counts, and only when the store has grown since. */
export function enquiryLister(store: Store): () => Promise<EnquiryListWire> {
  let kept: { readonly at: string; readonly list: EnquiryListWire } | null = null;
  return () =>
    store.read(async (reader) => {
      const at = JSON.stringify(await reader.lastRows());
      if (kept?.at !== at) {
        const { library } = await storeLibrary(reader);
        const enquiries = (await reader.enquiryLines()).map((line) => {
          const { record, lasers, ...rest } = line;
          return { ...rest, enquiry: record, lasers: [...lasers], names: namesOf(line, library) };
        });
        kept = { at, list: { enquiries } };
      }
      return kept.list;
    });
}

/** Names of metals, layers and tried set-ups as a person knows them; what the library does not know goes by its id. */
function namesOf({ record, lasers }: EnquiryLine, { metals, layerKinds, setups }: Library): string[] {
  const name = (shelf: readonly { readonly id: string; readonly name: string }[], id: string) =>
    shelf.find((entry) => entry.id === id)?.name ?? id;
  return [
    ...new Set([
      ...record.parts.map((part) => name(metals, part.material)),
      ...record.parts.flatMap((part) => part.layers.map((layer) => name(layerKinds, layer.kind))),
      ...lasers.map((laser) => name(setups, laser)),
    ]),
  ];
}
