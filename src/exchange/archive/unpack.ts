import { createHash } from "node:crypto";
import { parseJsonText } from "#contract";
import { invalid } from "#units";
import { unzipFiles } from "../zip/zip-read.ts";
import type { ArchivedPhoto, TrialBundle } from "./bundle.ts";
import { answersFolder, archiveLimits, metadataPath, outcomesPath, photosPath, recordsFolder } from "./crate-words.ts";
import { readMetadata } from "./read-metadata.ts";
import { readAnswer, readOutcomes, readPhotoLines, readRecord } from "./read-parts.ts";

const what = "archive";

const decode = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

/** The files that the metadata names, each with the size and the sum that it states. */
function listedFiles(bytes: Uint8Array, limits: typeof archiveLimits): Map<string, Uint8Array> {
  const files = unzipFiles(bytes, what, limits);
  const metadata = files.get(metadataPath) ?? invalid(what, "no metadata", "", `must have ${metadataPath} at its root`);
  const listed = new Map<string, Uint8Array>();
  for (const { path, size, sha256 } of readMetadata(decode(metadata))) {
    const content = files.get(path) ?? invalid("archive file", path, "", "the metadata names it and it is missing");
    const sum = createHash("sha256").update(content).digest("hex");
    if (content.length !== size || sum !== sha256)
      invalid("archive file", path, "", "has another content than its sha256 in the metadata says");
    listed.set(path, content);
  }
  return listed;
}

function photosOf(files: ReadonlyMap<string, Uint8Array>, lines: unknown): ArchivedPhoto[] {
  return readPhotoLines(lines).map(({ file, ...line }) => {
    const content = files.get(file) ?? invalid("archive photo", file, "", "is not in the archive");
    const sum = createHash("sha256").update(content).digest("hex");
    if (sum !== line.sha256 || content.length !== line.bytes)
      invalid("archive photo", file, "", `is not the photo ${line.sha256.slice(0, 12)}`);
    return { ...line, content };
  });
}

/**
 * The trial in an archive, every record checked by its published shape; nothing is written anywhere. Throws InvalidInput
 * in one line for what is no zip, paths that lead out of it, sizes over `limits`, missing metadata, files with another
 * sha256 than stated, an archive of a newer version and records that do not fit.
 */
export function unpackTrial(bytes: Uint8Array, limits: typeof archiveLimits = archiveLimits): TrialBundle {
  const files = listedFiles(bytes, limits);
  const json = (path: string): unknown => {
    const content = files.get(path) ?? invalid(what, path, "", "is not among the files that the metadata names");
    return parseJsonText(decode(content), path);
  };
  const inside = (folder: string) => [...files.keys()].filter((p) => p.startsWith(folder) && p.endsWith(".json"));
  const records = inside(recordsFolder).map((path) => readRecord(json(path), path));
  const trials = records.filter((r) => r.kind === "trial");
  if (trials.length !== 1) invalid(what, `${trials.length} trials`, "", "must hold exactly one");
  const trial = trials[0]!.versions.at(-1)!.record as { id: string; enquiry: string };
  const answers = inside(answersFolder).map((path) => readAnswer(json(path), path));
  const stray = answers.find((a) => a.enquiry !== trial.enquiry);
  if (stray !== undefined) invalid("answer enquiry", stray.enquiry, "", `must be ${trial.enquiry}, the trial's`);
  return {
    trialId: trial.id,
    records,
    outcomes: readOutcomes(json(outcomesPath), trial.id),
    answers,
    photos: photosOf(files, json(photosPath)),
  };
}
