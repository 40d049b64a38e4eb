import type { LaserSetup, LayerKind, Metal } from "#terms";
import type { FileFume, FileLayer, FileMetal, FileSetup, LibraryFile } from "./file-shape.ts";
import type { FumeEntry } from "./fume.ts";

type Origin = Pick<LibraryFile, "source" | "fromMemory">;

function isFigure(record: Record<string, unknown>): boolean {
  return "unit" in record && "value" in record && "validRange" in record;
}

/** Copy in which every property and table names its source: its own, or that of the file it stands in. */
function withOrigin(value: unknown, origin: Origin): unknown {
  if (Array.isArray(value) || value === null || typeof value !== "object") return value;
  const record = value as Record<string, unknown>;
  if (isFigure(record)) return { source: origin.source, fromMemory: origin.fromMemory, ...record };
  return Object.fromEntries(Object.entries(record).map(([key, v]) => [key, withOrigin(v, origin)]));
}

function completeEntry<T>(entry: FileMetal | FileLayer | FileSetup | FileFume, origin: Origin): T {
  const { replaces: _replaces, ...kept } = entry;
  return withOrigin(kept, origin) as T;
}

/** The entries of one data file as the records of the trade. */
export interface CompletedFile {
  readonly metals: readonly Metal[];
  readonly layerKinds: readonly LayerKind[];
  readonly setups: readonly LaserSetup[];
  readonly fumeEntries: readonly FumeEntry[];
}

/** Fills in what a file leaves to its head: source and fromMemory. */
export function completeFile(file: LibraryFile): CompletedFile {
  const origin = { source: file.source, fromMemory: file.fromMemory };
  return {
    metals: (file.metals ?? []).map((m) => completeEntry<Metal>(m, origin)),
    layerKinds: (file.layers ?? []).map((l) => completeEntry<LayerKind>(l, origin)),
    setups: (file.setups ?? []).map((s) => ({ ...origin, ...completeEntry<LaserSetup>(s, origin) })),
    fumeEntries: (file.fume ?? []).map((f) => ({ ...origin, ...completeEntry<FumeEntry>(f, origin) })),
  };
}
