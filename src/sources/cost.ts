import { entry, type Source } from "./source.ts";

/** Capital recovery, worked costs of competing methods, energy. */
export const costSources: readonly Source[] = [
  entry(
    "engineering-economy-tables",
    "handbook",
    "Compound-interest tables of engineering-economy textbooks: capital recovery factors",
  ),
  entry(
    "abrasive-cost-example",
    "guidance",
    "Published worked example of abrasive blasting cost per area, [A(B+E)+C+D]/X",
  ),
];
