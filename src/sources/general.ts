import { entry, type Source } from "./source.ts";

/** Origins that are not publications. A figure that cites one of these says so wherever it is shown. */
export const generalSources: readonly Source[] = [
  entry("practice", "practice", "Common practice of the trade, no published source"),
  entry("memory", "memory", "Written down from memory of the trade literature, not confirmed"),
  entry("own", "own", "Own derivation, given beside the formula"),
  entry("invented", "own", "Invented for an example; describes no real part, site or customer"),
  entry("user", "own", "Entered by the user"),
];
