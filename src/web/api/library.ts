import type { LibraryFile } from "#library";
import { call } from "./client.ts";

export interface KeptFile {
  readonly id: string;
  readonly version: number;
  readonly savedAt: string;
  readonly file: LibraryFile;
}

export interface KeptFiles {
  /** in the order in which they are taken in */
  readonly files: readonly KeptFile[];
  /** kept files that do not fit, with the reason */
  readonly refused: readonly (KeptFile & { readonly error: string })[];
}

export type ShelfKey = "metals" | "layers" | "setups";

export interface Dependants {
  readonly enquiries: readonly {
    readonly id: string;
    readonly title: string;
    /** false: it is only one of what an unknown may be */
    readonly named: boolean;
    readonly parts: readonly string[];
  }[];
  readonly trials: readonly { readonly id: string; readonly enquiry: string; readonly part: string }[];
  readonly beliefs: readonly { readonly id: string; readonly trial: string; readonly enquiry: string }[];
}

const at = (id: string): string => `/library/files/${encodeURIComponent(id)}`;

export const listLibraryFiles = (signal?: AbortSignal) => call<KeptFiles>("GET", "/library/files", undefined, signal);
/** `version` 0 writes a new one; any other must be the version that was read. */
export const putLibraryFile = (id: string, version: number, file: LibraryFile) =>
  call<KeptFile>("PUT", at(id), { version, file });
export const getFileHistory = (id: string) =>
  call<{ versions: { version: number; savedAt: string }[] }>("GET", `${at(id)}/history`);
export const getFileVersion = (id: string, version: number) => call<KeptFile>("GET", `${at(id)}/history/${version}`);
export const getDependants = (shelf: ShelfKey, id: string) =>
  call<Dependants>("GET", `/library/dependants/${shelf}/${encodeURIComponent(id)}`);
