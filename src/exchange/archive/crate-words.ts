import type { ZipLimits } from "../zip/zip-read.ts";

/** The open standard that the archive follows: RO-Crate 1.2, https://w3id.org/ro/crate/1.2 */
export const crateStandard = "https://w3id.org/ro/crate/1.2";
export const crateContext = `${crateStandard}/context`;
/** Older and later editions of the same major version are read. */
export const crateFamily = "https://w3id.org/ro/crate/1.";

export const metadataPath = "ro-crate-metadata.json";

/** Name and version of what we put into it. A change that older versions cannot read raises the version. */
export const formatName = "scourlight-trial";
export const formatVersion = 1;

export const recordsFolder = "records/";
export const answersFolder = "answers/";
export const outcomesPath = "outcomes.json";
export const photosPath = "photos.json";
/** For people to read; an import leaves it alone, since a library of the other side is its own. */
export const entriesPath = "library-entries.json";

/** A trial of 2,000 patches with a photo of each stays below. */
export const archiveLimits: ZipLimits = { files: 20_000, bytes: 1e9 };
