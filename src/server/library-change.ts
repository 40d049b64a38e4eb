import type { EnquiryFile } from "#contract";
import type { LibraryFile } from "#library";
import type { StoreReader } from "#store";

/** What of an own library file an answer to this enquiry stands on: every set-up, and what it names or may mean. */
function partOf(file: LibraryFile, enquiry: EnquiryFile | null): string {
  const materials = new Set(enquiry?.parts.map((p) => p.material));
  const kinds = new Set(enquiry?.parts.flatMap((p) => p.layers.map((l) => l.kind)));
  return JSON.stringify([
    file.setups ?? [],
    (file.metals ?? []).filter((m) => materials.has("unknown") || materials.has(m.id)),
    (file.layers ?? []).filter((l) => kinds.has("unknown") || kinds.has(l.id)),
  ]);
}

const nothing = JSON.stringify([[], [], []]);

/** When own library entries that an answer to an enquiry stands on were last saved otherwise than before. */
export async function libraryChanges(reader: StoreReader, enquiry: EnquiryFile | null): Promise<string[]> {
  const times: string[] = [];
  for (const { id } of await reader.list("library")) {
    for (const { version, savedAt } of await reader.history("library", id)) {
      const now = await reader.version("library", id, version);
      const before = await reader.version("library", id, version - 1);
      if (now === null) break;
      const was = before === null ? nothing : partOf(before.record.file, enquiry);
      if (partOf(now.record.file, enquiry) === was) continue;
      times.push(savedAt);
      break;
    }
  }
  return times;
}
