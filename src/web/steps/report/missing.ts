import type { PartDetailsWire } from "#contract";
import { words } from "../../words/index.ts";

const say = words.papers;

interface Known {
  readonly part: PartDetailsWire;
  readonly unknowns: readonly string[];
  readonly invented: boolean;
  /** version of the shop figures behind the answer, and the newest */
  readonly shopVersion: number;
  readonly shopNow: number;
  readonly approver: string;
}

/** What a paper still lacks before it may leave the house, one sentence each; the weightiest first. */
export function missingOf({ part, unknowns, invented, shopVersion, shopNow, approver }: Known): string[] {
  return [
    ...(part.footing === "proven" ? [] : [part.words]),
    ...unknowns.map((what) => words.panel.missingUnknown(what)),
    ...part.notMeasured.map((name) => say.notMeasured(name.replace(/^./, (c) => c.toUpperCase()))),
    ...(part.job !== null && shopVersion === 0 && shopNow === 0 ? [say.invented] : []),
    ...(shopNow === shopVersion ? [] : [say.shopNewer]),
    ...(approver.trim() === "" ? [say.notApproved] : []),
    ...(invented ? [say.inventedEnquiry] : []),
  ];
}
