import type { RecordKind, RecordShapes, Saved, StoreReader } from "#store";

/** Beyond as many changed records one look through all of them costs less than one for each. */
const FEW = 20;

/** What is made of the latest records of a kind, last saved first. */
export type RememberedOf<T> = (reader: StoreReader) => Promise<ReadonlyMap<string, T>>;

/** Makes something of every record of a kind, and of each version once however often it is asked for. */
export function remembered<K extends RecordKind, T>(
  kind: K,
  make: (saved: Saved<RecordShapes[K]>) => T,
): RememberedOf<T> {
  let known = new Map<string, { readonly version: number; readonly made: T }>();
  return async (reader) => {
    const heads = await reader.heads(kind);
    const changed = heads.filter((h) => known.get(h.id)?.version !== h.version);
    const fresh = new Map(known);
    if (changed.length > FEW) {
      const wanted = new Set(changed.map((h) => h.id));
      for (const saved of await reader.list(kind))
        if (wanted.has(saved.id)) fresh.set(saved.id, { version: saved.version, made: make(saved) });
    } else
      for (const { id } of changed) {
        const saved = await reader.latest(kind, id);
        if (saved !== null) fresh.set(id, { version: saved.version, made: make(saved) });
      }
    known = new Map(heads.flatMap(({ id }) => (fresh.has(id) ? [[id, fresh.get(id)!] as const] : [])));
    return new Map([...known].map(([id, { made }]) => [id, made]));
  };
}
