import type { LikeWire } from "#contract";
import { createLibrary, type Library } from "#library";
import { invalid } from "#units";
import {
  type LikeQuery,
  MODEL_VERSION,
  queriesOfPart,
  queryWords,
  readLikeText,
  searchLike,
  type WeightedQuery,
} from "#workflows";
import { readKept } from "./known.ts";
import { keptCases } from "./like-cases.ts";
import { foundIn, keptWindows } from "./like-found.ts";
import { type Hit, hitCautions, hitLines, hitToWire } from "./like-show.ts";
import { loadLibrary, loadPart } from "./load.ts";
import { cautionLines, json } from "./show.ts";

export interface LikeFlags {
  readonly data: string;
  readonly enquiry?: string;
  readonly part?: string;
  readonly laser?: string;
  readonly library?: readonly string[];
  readonly most: number;
  readonly json?: boolean;
}

/** Trials less like than this are counted, not shown: own choice. */
const LEAST = 0.1;

interface Question {
  readonly words: string;
  readonly queries: readonly WeightedQuery[];
  readonly ignored: readonly string[];
}

/** `like`: what earlier trials know of a stack like this one. */
export async function likeVerb(text: string | undefined, flags: LikeFlags): Promise<string> {
  const answer = await readKept(flags.data, "data", async (reader) => {
    const own = flags.library ? [] : (await reader.list("library")).map((l) => l.record.file);
    const library = flags.library ? await loadLibrary(flags.library) : createLibrary(own);
    const question = await questionOf(text, flags, library);
    const { cases, notCompared } = await keptCases(reader, library);
    const near = searchLike(question.queries, cases).filter((f) => f.likeness >= LEAST);
    const windows = keptWindows(reader);
    const hits: Hit[] = [];
    for (const f of near.slice(0, flags.most)) hits.push({ ...f, found: await foundIn(reader, windows, f.case) });
    return { question, hits, compared: cases.length, near: near.length, notCompared };
  });
  const cautions = hitCautions(answer.hits);
  if (flags.json) {
    const wire: LikeWire = {
      question: answer.question.words,
      ignored: [...answer.question.ignored],
      compared: answer.compared,
      notCompared: answer.notCompared,
      trials: answer.hits.map(hitToWire),
      cautions,
      modelVersion: MODEL_VERSION,
    };
    return json(wire);
  }
  const { question, hits, compared, near, notCompared } = answer;
  const many = (n: number) => `${n} ${n === 1 ? "trial" : "trials"}`;
  const notes = [
    ...(hits.length === 0 ? ["nothing like it has been tried"] : []),
    ...(near > hits.length ? [`${many(near - hits.length)} less like it not shown`] : []),
    ...(compared > near ? [`${many(compared - near)} of other coats left out`] : []),
    ...(notCompared > 0 ? [`${many(notCompared)} without a kept enquiry could not be compared`] : []),
    ...(hits.some((h) => h.found.recommended)
      ? ["A setting of another job is a place to begin a trial, no more."]
      : []),
  ];
  return [
    `What is known of ${question.words}: ${many(compared)} compared`,
    ...(question.ignored.length > 0 ? [`not understood: ${question.ignored.join(", ")}`] : []),
    ...hits.flatMap(hitLines),
    ...(notes.length > 0 ? ["", ...notes] : []),
    "",
    ...cautionLines(cautions),
  ].join("\n");
}

async function questionOf(text: string | undefined, flags: LikeFlags, library: Library): Promise<Question> {
  const laser = flags.laser === undefined ? null : library.setup(flags.laser);
  if (flags.enquiry !== undefined) {
    if (text !== undefined) invalid("question", text, "", "either in words or by --enquiry, not both");
    const { part } = await loadPart({ ...flags, enquiry: flags.enquiry, seed: 1, draws: 1 });
    if (part.mixture.length === 0) invalid("part", part.name, "", "is no metal: nothing is tried on it here");
    return {
      words: `${part.name}${laser ? ` with ${laser.name}` : ""}`,
      queries: queriesOfPart(part, laser),
      ignored: [],
    };
  }
  if (text === undefined)
    return invalid("question", "missing", "", 'in words, "white polyurethane on 5083", or by --enquiry');
  const { query, ignored } = readLikeText(text, library);
  const asked: LikeQuery = laser === null ? query : { ...query, setups: [laser] };
  return { words: queryWords(asked), queries: [{ query: asked, weight: 1 }], ignored };
}
