import { hitCautions, hitToWire, openArchive, type Question, questionInWords, questionOfPart } from "#archive";
import { createLibrary, type Library } from "#library";
import { invalid } from "#units";
import { MODEL_VERSION } from "#workflows";
import { readKept } from "./known.ts";
import { likeByServer } from "./like-by-server.ts";
import type { LikeFlags, LikeFound } from "./like-flags.ts";
import { hitLines } from "./like-show.ts";
import { loadLibrary, loadPart } from "./load.ts";
import { onFolder } from "./on-folder.ts";
import { cautionLines, json } from "./show.ts";

/** `like`: what earlier trials know of a stack like this one. */
export async function likeVerb(text: string | undefined, flags: LikeFlags): Promise<string> {
  const { wire, near } = await foundBy(text, flags);
  if (flags.json) return json(wire);
  const { compared, notCompared, trials } = wire;
  const many = (n: number) => `${n} ${n === 1 ? "trial" : "trials"}`;
  const notes = [
    ...(trials.length === 0 ? ["nothing like it has been tried"] : []),
    ...(near > trials.length ? [`${many(near - trials.length)} less like it not shown`] : []),
    ...(compared > near ? [`${many(compared - near)} of other coats left out`] : []),
    ...(notCompared > 0 ? [`${many(notCompared)} without a kept enquiry could not be compared`] : []),
    ...(trials.some((t) => t.recommended) ? ["A setting of another job is a place to begin a trial, no more."] : []),
  ];
  return [
    `What is known of ${wire.question}: ${many(compared)} compared`,
    ...(wire.ignored.length > 0 ? [`not understood: ${wire.ignored.join(", ")}`] : []),
    ...trials.flatMap(hitLines),
    ...(notes.length > 0 ? ["", ...notes] : []),
    "",
    ...cautionLines(wire.cautions),
  ].join("\n");
}

function foundBy(text: string | undefined, flags: LikeFlags): Promise<LikeFound> {
  const here = () => foundHere(text, flags);
  // A server knows the enquiries and the library that it keeps, not files of this command line.
  if (flags.enquiry !== undefined || flags.library !== undefined || text === undefined) return here();
  return onFolder(flags.data, { server: (door) => likeByServer(door, text, flags), here });
}

function foundHere(text: string | undefined, flags: LikeFlags): Promise<LikeFound> {
  return readKept(flags.data, "data", async (reader) => {
    const own = flags.library ? [] : (await reader.list("library")).map((l) => l.record.file);
    const library = flags.library ? await loadLibrary(flags.library) : createLibrary(own);
    const question = await questionOf(text, flags, library);
    const shelf = await openArchive(library).search(reader, question, { offset: 0, most: flags.most });
    return {
      near: shelf.near,
      wire: {
        question: question.words,
        ignored: [...question.ignored],
        compared: shelf.compared,
        notCompared: shelf.notCompared,
        trials: shelf.hits.map(hitToWire),
        cautions: hitCautions(shelf.hits),
        modelVersion: MODEL_VERSION,
      },
    };
  });
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
