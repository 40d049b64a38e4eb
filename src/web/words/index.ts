import { archive } from "./archive.ts";
import { behind } from "./behind.ts";
import { bench } from "./bench.ts";
import { comparison } from "./comparison.ts";
import { economy } from "./economy.ts";
import { english as pages } from "./en.ts";
import { library } from "./library.ts";
import { live } from "./live.ts";
import { logbook } from "./logbook.ts";
import { papers } from "./papers.ts";
import { part } from "./part.ts";
import { photographs } from "./photographs.ts";
import { results } from "./results.ts";
import { setting } from "./setting.ts";
import { trial } from "./trial.ts";
import { window } from "./window.ts";

const english = {
  ...pages,
  photographs,
  comparison,
  economy,
  papers,
  library,
  archive,
  bench,
  live,
  logbook,
  behind,
  part,
  setting,
  trial,
  results,
  window,
};

/** Every language fills the same catalogue. */
export type Words = typeof english;

export const words: Words = english;
