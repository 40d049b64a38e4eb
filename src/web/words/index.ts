import { english } from "./en.ts";

/** Every language fills the same catalogue. */
export type Words = typeof english;

export const words: Words = english;
