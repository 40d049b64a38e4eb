import { comparison } from "./comparison.ts";
import { economy } from "./economy.ts";
import { english as pages } from "./en.ts";
import { papers } from "./papers.ts";
import { photographs } from "./photographs.ts";

const english = { ...pages, photographs, comparison, economy, papers };

/** Every language fills the same catalogue. */
export type Words = typeof english;

export const words: Words = english;
