import type { Library } from "#library";
import type { LaserSetup, PartEnquiry } from "#terms";
import { invalid } from "#units";
import {
  type LikeQuery,
  queriesOfPart,
  queryWords,
  type ReadQuery,
  readAnyText,
  readLikeText,
  type WeightedQuery,
} from "#workflows";

/** What is asked of the archive, as it was understood. */
export interface Question {
  readonly words: string;
  readonly queries: readonly WeightedQuery[];
  /** words that mean nothing to the library */
  readonly ignored: readonly string[];
}

const asked = ({ query, ignored }: ReadQuery, laser: LaserSetup | null): Question => {
  const whole: LikeQuery = laser === null ? query : { ...query, setups: [laser] };
  return { words: queryWords(whole), queries: [{ query: whole, weight: 1 }], ignored };
};

/** A question in words. Throws InvalidInput where it is too long or names nothing of the library. */
export const questionInWords = (text: string, laser: LaserSetup | null, library: Library): Question =>
  asked(readLikeText(text, library), laser);

/** As `questionInWords`, and null where it names nothing of the library: half a word is no mistake yet. */
export function questionAsTyped(text: string, laser: LaserSetup | null, library: Library): Question | null {
  const read = readAnyText(text, library);
  return read === null ? null : asked(read, laser);
}

/** What is like a part; `of` names it in full. Throws InvalidInput for a part that is no metal. */
export function questionOfPart(part: PartEnquiry, laser: LaserSetup | null, of = part.name): Question {
  if (part.mixture.length === 0) invalid("part", part.name, "", "is no metal: nothing is tried on it here");
  return {
    words: `${of}${laser ? ` with ${laser.name}` : ""}`,
    queries: queriesOfPart(part, laser),
    ignored: [],
  };
}

/** What was burned on the like of a set-up, whatever it was. */
export function questionOfLaser(laser: LaserSetup): Question {
  const query: LikeQuery = { layers: [], metals: [], setups: [laser] };
  return { words: queryWords(query), queries: [{ query, weight: 1 }], ignored: [] };
}
