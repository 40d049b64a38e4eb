import type { wordsEn } from "./words-en.ts";

type Translated<T> = { readonly [Key in keyof T]: T[Key] extends string ? string : Translated<T[Key]> };

/** Every word that the papers say of themselves; the English catalogue is the pattern. */
export type Words = Translated<typeof wordsEn>;
