export type SourceKind =
  | "standard"
  | "handbook"
  | "paper"
  | "dataset"
  | "directive"
  | "guidance"
  | "practice"
  | "memory"
  | "own";

/** One entry of the bibliography. */
export interface Source {
  /** stable id in kebab-case, for example "carslaw-jaeger-1959" */
  readonly id: string;
  readonly citation: string;
  readonly kind: SourceKind;
  /** what the source is not, or how far it was read */
  readonly note?: string;
}

/** Shorthand for the lists of this room. */
export function entry(id: string, kind: SourceKind, citation: string, note?: string): Source {
  return note === undefined ? { id, kind, citation } : { id, kind, citation, note };
}
