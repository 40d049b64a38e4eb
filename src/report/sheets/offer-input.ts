import type { PaperHead } from "./paper-head.ts";

/** A price that never stands without its spread. */
export interface PriceRange {
  /** 5 % and 95 % points of what was worked out, above or at 0, high above low */
  readonly low: number;
  readonly high: number;
  /** or null where only the ends are known */
  readonly middle: number | null;
  /** "EUR" or another word; required */
  readonly currency: string;
  /** what it is the price of, for example "for the order of 24 pieces, without tax" */
  readonly per: string;
  /** what the figure rests on, at least one line */
  readonly basis: readonly string[];
}

/** Something that can be had besides. */
export interface OfferOption {
  readonly name: string;
  readonly words: string;
  readonly price: PriceRange | null;
}

/** What an offer page is made of. An empty list or null is printed as "not worked out", never left away. */
export interface OfferInput extends PaperHead {
  readonly title: string;
  readonly scope: readonly string[];
  readonly assumptions: readonly string[];
  readonly exclusions: readonly string[];
  readonly options: readonly OfferOption[];
  /** day until which it holds, as it is to be printed, or null */
  readonly validUntil: string | null;
  readonly price: PriceRange | null;
  /** at least one */
  readonly cautions: readonly string[];
}
