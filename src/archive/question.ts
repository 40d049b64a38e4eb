import type { Library } from "#library";
import type { LaserSetup, PartEnquiry } from "#terms";
import { invalid } from "#units";
import { type LikeQuery, queriesOfPart, queryWords, readLikeText, type WeightedQuery } from "#workflows";

/** What is asked of the archive, as it was understood. */
export interface Question {
  readonly words: string;
  readonly queries: readonly WeightedQuery[];
  /** words that mean nothing to the library */
  readonly ignored: readonly string[];
}

/** A question in words. Throws InvalidInput where it is too long or names nothing of the library. */
export function questionInWords(text: string, laser: LaserSetup | null, library: Library): Question {
  const { query, ignored } = readLikeText(text, library);
  const asked: LikeQuery = laser === null ? query : { ...query, setups: [laser] };
  return { words: queryWords(asked), queries: [{ query: asked, weight: 1 }], ignored };
}

/** What is like a part. Throws InvalidInput for a part that is no metal. */
export function questionOfPart(part: PartEnquiry, laser: LaserSetup | null): Question {
  if (part.mixture.length === 0) invalid("part", part.name, "", "is no metal: nothing is tried on it here");
  return {
    words: `${part.name}${laser ? ` with ${laser.name}` : ""}`,
    queries: queriesOfPart(part, laser),
    ignored: [],
  };
}

/** What was burned on the like of a set-up, whatever it was. */
export function questionOfLaser(laser: LaserSetup): Question {
  const query: LikeQuery = { layers: [], metals: [], setups: [laser] };
  return { words: queryWords(query), queries: [{ query, weight: 1 }], ignored: [] };
}
