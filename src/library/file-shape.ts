import type {
  Char,
  ColourClass,
  Decomposition,
  LaserSetup,
  LayerKind,
  LayerOptics,
  Metal,
  OxideGrowth,
  Property,
  TemperatureTable,
} from "#terms";
import type { FumeEntry, FumeLimit } from "./fume.ts";

/** A property in a file: source and fromMemory may be left to the file they stand in. */
export type FileProperty = Omit<Property, "source" | "fromMemory"> & Partial<Pick<Property, "source" | "fromMemory">>;
export type FileTable = Omit<TemperatureTable, "source" | "fromMemory"> &
  Partial<Pick<TemperatureTable, "source" | "fromMemory">>;

/** A record of the library with every property in its file form. */
type InFile<T> = {
  readonly [K in keyof T]: T[K] extends Property
    ? FileProperty
    : T[K] extends TemperatureTable
      ? FileTable
      : T[K] extends Property | null
        ? FileProperty | null
        : T[K];
};

export type FileOxide = InFile<OxideGrowth>;
export type FileChar = InFile<Char>;
export type FileDecomposition = Omit<InFile<Decomposition>, "char"> & { readonly char?: FileChar | undefined };
export type FileOptics = InFile<LayerOptics>;
export type FilePits = { readonly areaShare: FileProperty; readonly depthRatio: FileProperty };

/** An entry may take the place of one of ours only when it says so. */
interface Replacing {
  readonly replaces?: boolean;
}

export type FileMetal = Omit<InFile<Metal>, "oxideGrowth"> & { readonly oxideGrowth: FileOxide | null } & Replacing;

export type FileLayer = Omit<InFile<LayerKind>, "optics" | "decomposition" | "pits"> & {
  readonly optics: Readonly<Partial<Record<ColourClass, FileOptics>>>;
  readonly decomposition: FileDecomposition | null;
  readonly pits: FilePits | null;
} & Replacing;

export type FileSetup = Omit<LaserSetup, "source" | "fromMemory"> &
  Partial<Pick<LaserSetup, "source" | "fromMemory">> &
  Replacing;

export type FileFume = Omit<FumeEntry, "source" | "fromMemory" | "limits"> &
  Partial<Pick<FumeEntry, "source" | "fromMemory">> & { readonly limits: readonly FumeLimit[] } & Replacing;

/** One data file: entries of one source or group, with a note on what it is and is not. SI throughout. */
export interface LibraryFile {
  readonly source: string;
  /** Full citation: needed where `source` is not in the bibliography. */
  readonly citation?: string;
  readonly fromMemory: boolean;
  readonly note: string;
  readonly metals?: readonly FileMetal[];
  readonly layers?: readonly FileLayer[];
  readonly setups?: readonly FileSetup[];
  readonly fume?: readonly FileFume[];
}
