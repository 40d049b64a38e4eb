import type { GradingWire } from "#contract";
import type { Gate } from "#grading";
import type { PartEnquiry, Trial } from "#terms";

/** A kept photograph under the name that a person knows it by. */
export interface NamedPhoto {
  readonly name: string;
  readonly sha256: string;
}

/** What this browser keeps of the photographs of a trial until a grading holds it. */
export interface KeptHere {
  /** sent and not read yet */
  readonly pending: readonly NamedPhoto[];
  /** files that were not kept or not read, with the reason */
  readonly refused: readonly { readonly name: string; readonly line: string }[];
}

/** How the frame sheet came out of the printer. */
export interface SheetAsPrinted {
  /** measured over nominal length of the ruler */
  readonly printScale: number;
  /** CIELAB lightness of the seven grey steps, dark to light; null where nobody measured them */
  readonly greys: readonly number[] | null;
}

/** A photograph with the coupon that it shows; null where nobody has looked yet. */
export interface SortedPhoto extends NamedPhoto {
  readonly coupon: number | null;
}

export interface ReadAsk extends SheetAsPrinted {
  readonly trial: Trial;
  readonly part: PartEnquiry;
  readonly cautions: readonly string[];
  readonly photos: readonly SortedPhoto[];
  /** true: every coupon is read anew; false: only those that a photograph was added to */
  readonly all: boolean;
}

export interface FlatAsk extends SheetAsPrinted {
  readonly trial: Trial;
  readonly photo: NamedPhoto;
}

/** What may be asked of the worker that looks at photographs. */
export type PhotoQuestion =
  | { readonly kind: "read"; readonly ask: ReadAsk }
  | { readonly kind: "flat"; readonly ask: FlatAsk };

/** A photograph of a coupon laid flat, as a file to look at. */
export interface FlatPicture {
  readonly sha256: string;
  readonly file: Blob;
}

export interface ReadAnswer {
  readonly gradings: readonly GradingWire[];
  /** by the sha256 of the original */
  readonly flats: readonly FlatPicture[];
  /** by coupon: sha256 of the photograph that shows it best */
  readonly best: Readonly<Record<number, string>>;
  readonly unread: readonly { readonly name: string; readonly gates: readonly Gate[] }[];
}

export interface PhotoProgress {
  readonly name: string;
  readonly stage: "sorting" | "reading";
  /** photographs done of all */
  readonly done: number;
  readonly of: number;
}

export type FromPhotoWorker =
  | { readonly state: "progress"; readonly progress: PhotoProgress }
  | { readonly state: "read"; readonly answer: ReadAnswer }
  | { readonly state: "flat"; readonly file: Blob | null }
  /** this browser cannot decode it; the server can, or says why not */
  | { readonly state: "undecodable"; readonly name: string }
  | { readonly state: "failed"; readonly line: string };
