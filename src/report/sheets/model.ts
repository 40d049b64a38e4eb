import type { Language } from "./language.ts";

/** Which of the papers a sheet is. */
export type SheetKind = "procedure" | "commissioning" | "run-sheet" | "offer";

/** What stands in one place of a table: words, room to write in, or a box to tick. */
export type Cell =
  | { readonly kind: "text"; readonly words: string }
  | { readonly kind: "blank"; readonly unit: string }
  | { readonly kind: "tick" };

/** Words in a language that may differ from the paper's. */
export interface Sentence {
  readonly words: string;
  readonly language: Language;
  /** stands before words that are not in the paper's language, "" otherwise */
  readonly mark: string;
}

export interface SheetFact {
  readonly name: string;
  readonly value: Cell;
  readonly note: string;
}

export interface SheetColumn {
  /** what the column holds, for a program: the column of the run sheet file where there is one */
  readonly key: string;
  readonly name: string;
  /** second line of the head, "" where there is none */
  readonly unit: string;
  readonly align: "left" | "right";
  /** share of the width, any unit */
  readonly share: number;
}

/** One patch on the small drawing of a coupon; m from its lower left corner. */
export interface SketchPatch {
  readonly patch: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** run order, or words for a reference patch */
  readonly under: string;
  readonly reference: boolean;
}

export interface CouponSketch {
  readonly label: string;
  /** m */
  readonly width: number;
  readonly height: number;
  readonly patches: readonly SketchPatch[];
  /** for readers who do not see the drawing */
  readonly description: string;
}

export type SheetBlockBody =
  | { readonly kind: "text"; readonly words: string }
  | { readonly kind: "list"; readonly items: readonly string[] }
  | { readonly kind: "ticks"; readonly items: readonly string[] }
  | { readonly kind: "facts"; readonly rows: readonly SheetFact[] }
  /** a setting: values side by side, each under its name */
  | { readonly kind: "strip"; readonly rows: readonly SheetFact[] }
  /** who signs, each over room for name, date and signature */
  | { readonly kind: "signs"; readonly rows: readonly SheetFact[]; readonly words: string }
  | {
      readonly kind: "table";
      readonly caption: string;
      readonly columns: readonly SheetColumn[];
      readonly rows: readonly (readonly Cell[])[];
    }
  | {
      /** cautions, stop rules: framed, never left out */
      readonly kind: "box";
      readonly title: string;
      readonly lead: string;
      readonly items: readonly Sentence[];
      readonly notices: readonly Sentence[];
    }
  | { readonly kind: "banner"; readonly words: string; readonly detail: string; readonly tone: "plain" | "warn" }
  | { readonly kind: "sketch"; readonly coupon: CouponSketch };

/**
 * A block of a sheet. `spare` marks what may be left out where the page is too small: lower `order` goes first, and
 * `name` then stands on the sheet as lost. A block without `spare` is never left out.
 */
export type SheetBlock = SheetBlockBody & { readonly spare?: { readonly order: number; readonly name: string } };

export interface SheetSection {
  readonly id: string;
  readonly heading: string;
  readonly blocks: readonly SheetBlock[];
}

/**
 * Sections side by side, each column read to its end before the next; or, with `flow`, sections that run through two
 * columns of the page as they come.
 */
export interface SheetRow {
  readonly flow: boolean;
  readonly columns: readonly { readonly share: number; readonly sections: readonly SheetSection[] }[];
}

/** A whole paper as plain data: the same for the screen and for print. */
export interface Sheet<Kind extends SheetKind = SheetKind> {
  readonly kind: Kind;
  readonly language: Language;
  readonly title: string;
  readonly subtitle: string;
  readonly documentId: string;
  readonly approver: string | null;
  /** document, revision, date, approver and what it belongs to */
  readonly head: readonly SheetFact[];
  /** "invented example" and the like */
  readonly marks: readonly string[];
  readonly rows: readonly SheetRow[];
  /** names of what was left out for room, and the words that lead up to them */
  readonly losses: readonly string[];
  readonly lossLead: string;
  readonly footer: string;
  /** stands before the number of a page */
  readonly pageWord: string;
  /** words for a blank and a box, for readers who do not see them */
  readonly blankWords: string;
  readonly tickWords: string;
  readonly upright: boolean;
}

export const text = (words: string): Cell => ({ kind: "text", words });
export const blank = (unit = ""): Cell => ({ kind: "blank", unit });
export const tick: Cell = { kind: "tick" };
export const fact = (name: string, value: string | Cell, note = ""): SheetFact => ({
  name,
  value: typeof value === "string" ? text(value) : value,
  note,
});

/** Sections over the whole width. */
export const wide = (...sections: readonly SheetSection[]): SheetRow => ({
  flow: false,
  columns: [{ share: 1, sections }],
});
/** Sections that run through two columns. */
export const flowing = (...sections: readonly SheetSection[]): SheetRow => ({
  flow: true,
  columns: [{ share: 1, sections }],
});
