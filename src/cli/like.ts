import { hitCautions, hitToWire, openArchive, type Question, questionInWords, questionOfPart } from "#archive";
import type { LikeWire } from "#contract";
import { createLibrary, type Library } from "#library";
import { invalid } from "#units";
import { MODEL_VERSION } from "#workflows";
import { readKept } from "./known.ts";
import { hitLines } from "./like-show.ts";
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

/** `like`: what earlier trials know of a stack like this one. */
export async function likeVerb(text: string | undefined, flags: LikeFlags): Promise<string> {
  const answer = await readKept(flags.data, "data", async (reader) => {
    const own = flags.library ? [] : (await reader.list("library")).map((l) => l.record.file);
    const library = flags.library ? await loadLibrary(flags.library) : createLibrary(own);
    const question = await questionOf(text, flags, library);
    const shelf = await openArchive(library).search(reader, question, { offset: 0, most: flags.most });
    return { question, ...shelf };
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
    return questionOfPart(part, laser);
  }
  if (text === undefined)
    return invalid("question", "missing", "", 'in words, "white polyurethane on 5083", or by --enquiry');
  return questionInWords(text, laser, library);
}
