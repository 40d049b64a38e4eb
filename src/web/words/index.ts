import { english as pages } from "./en.ts";
import { photographs } from "./photographs.ts";

const english = { ...pages, photographs };

/** Every language fills the same catalogue. */
export type Words = typeof english;

export const words: Words = english;
