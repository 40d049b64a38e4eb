import { acceptanceSources } from "./acceptance.ts";
import { costSources } from "./cost.ts";
import { generalSources } from "./general.ts";
import { heatSources } from "./heat.ts";
import { materialSources } from "./materials.ts";
import { opticsSources } from "./optics.ts";
import { removalSources } from "./removal.ts";
import { safetySources } from "./safety.ts";
import type { Source } from "./source.ts";
import { statisticsSources } from "./statistics.ts";

export type { Source, SourceKind } from "./source.ts";

/** Every list in print order. */
export const sourceList: readonly Source[] = [
  ...heatSources,
  ...opticsSources,
  ...removalSources,
  ...materialSources,
  ...safetySources,
  ...acceptanceSources,
  ...statisticsSources,
  ...costSources,
  ...generalSources,
];

/** The bibliography by id. */
export const sources: Readonly<Record<string, Source>> = Object.freeze(
  Object.fromEntries(sourceList.map((s) => [s.id, s])),
);

/** True when the id is in the bibliography. */
export function isSource(id: string): boolean {
  return Object.hasOwn(sources, id);
}

/**
 * The entry of one id.
 * @throws RangeError when nobody has entered the id: a figure may not cite what is not listed
 */
export function source(id: string): Source {
  const found = isSource(id) ? sources[id] : undefined;
  if (found === undefined) throw new RangeError(`unknown source id: ${id}`);
  return found;
}

/**
 * One printable line: the citation, with its note in brackets.
 * @throws RangeError when the id is unknown
 */
export function citation(id: string): string {
  const { citation: text, note } = source(id);
  return note === undefined ? text : `${text} [${note}]`;
}
