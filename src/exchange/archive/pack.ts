import { createHash } from "node:crypto";
import { outcomeFromWire, outcomesToCsv, requireTextSize, runSheetCsv, trialFromWire } from "#contract";
import type { Library } from "#library";
import { invalid } from "#units";
import { cautionsTable } from "../tables/cautions-table.ts";
import { type ZipFile, zipFiles } from "../zip/zip-write.ts";
import { latestOf, type TrialBundle } from "./bundle.ts";
import { usedEntries } from "./library-of.ts";
import { type About, crateMetadata } from "./crate-metadata.ts";
import {
  answersFolder,
  archiveLimits,
  entriesPath,
  metadataPath,
  outcomesPath,
  photosPath,
  recordsFolder,
} from "./crate-words.ts";

interface Part extends ZipFile {
  readonly name: string;
  readonly mediaType: string;
}

const text = (path: string, name: string, mediaType: string, content: string): Part => {
  requireTextSize(content, path);
  return { path, name, mediaType, bytes: new TextEncoder().encode(content) };
};
const json = (path: string, name: string, value: unknown): Part =>
  text(path, name, "application/json", `${JSON.stringify(value, null, 1)}\n`);

const endings: Readonly<Record<string, string>> = { "image/jpeg": "jpg" };
const photoPath = (sha256: string, mediaType: string): string =>
  `photos/${sha256}.${endings[mediaType] ?? mediaType.replace(/^.*\/|[^a-z0-9]/g, "")}`;

/** What a person opens without any program of ours. */
function readable(bundle: TrialBundle, library: Library): Part[] {
  const wire = latestOf(bundle, "trial")!;
  const trial = trialFromWire(wire);
  const setup = library.setups.find((s) => s.id === wire.laser);
  const latest = new Map(bundle.outcomes.map(({ outcome }) => [`${outcome.patch} ${outcome.grader}`, outcome]));
  const outcomes = [...latest.values()].sort((a, b) => a.patch - b.patch);
  const cautions = cautionsTable(wire.cautions).rows.map(([line]) => `${line}\n`);
  return [
    text("cautions.txt", "Cautions: to be read before any setting is used", "text/plain", cautions.join("")),
    ...(setup === undefined
      ? []
      : [text("run-sheet.csv", "Run sheet: what to set on each patch", "text/csv", runSheetCsv(trial, setup))]),
    text(
      "outcomes.csv",
      "Latest outcome of each patch and grader",
      "text/csv",
      outcomesToCsv(outcomes.map(outcomeFromWire)),
    ),
  ];
}

function parts(bundle: TrialBundle, library: Library): Part[] {
  const photos = bundle.photos.map(({ content, ...line }) => ({
    ...line,
    file: photoPath(line.sha256, line.mediaType),
  }));
  return [
    ...readable(bundle, library),
    ...bundle.records.map((r) => json(`${recordsFolder}${r.kind}/${r.id}.json`, `${r.kind} ${r.id}, every version`, r)),
    json(outcomesPath, "Every outcome that was ever recorded, in order", bundle.outcomes),
    ...bundle.answers.map((a, i) =>
      json(`${answersFolder}${i + 1}.json`, `Answer ${i + 1} (${a.shape}) with its inputs and model version`, a),
    ),
    json(photosPath, "Photos by sha256", photos),
    json(entriesPath, "Library entries that the trial uses, in SI, each with its source", usedEntries(bundle, library)),
    ...bundle.photos.map(
      (p, i): Part => ({
        path: photos[i]!.file,
        name: `Photo ${p.sha256.slice(0, 12)}`,
        mediaType: p.mediaType,
        bytes: p.content,
        packed: true,
      }),
    ),
  ];
}

/** When the last of all that is in the bundle was saved: the archive is of that day, whenever it is written. */
function lastSaved(bundle: TrialBundle): string {
  const times = [...bundle.records.flatMap((r) => r.versions), ...bundle.outcomes, ...bundle.answers, ...bundle.photos];
  return times.map((t) => t.savedAt).reduce((a, b) => (Date.parse(b) > Date.parse(a) ? b : a));
}

function aboutOf(bundle: TrialBundle): About {
  const trial = latestOf(bundle, "trial")!;
  const enquiry = latestOf(bundle, "enquiry");
  const sentences = [
    `A laser cleaning trial: ${trial.patches.length} patches for part ${trial.part} of enquiry ${trial.enquiry} on laser set-up ${trial.laser}, ${bundle.outcomes.length} outcomes, ${bundle.answers.length} answers, ${bundle.photos.length} photos.`,
    ...(enquiry?.invented ? ["Invented for demonstration: no real part or order stands behind it."] : []),
    "Read cautions.txt before any setting in it is used.",
  ];
  return { name: `Trial ${trial.id}`, description: sentences.join(" "), datePublished: lastSaved(bundle) };
}

/**
 * A trial as one archive: a zip with RO-Crate metadata at its root. The same bundle gives the same bytes. The
 * run sheet is left out where the library does not know the laser set-up. Throws InvalidInput for what would
 * be too large to be read again.
 */
export function packTrial(bundle: TrialBundle, library: Library, limits = archiveLimits): Uint8Array {
  const files = parts(bundle, library);
  const described = files.map(({ path, name, mediaType, bytes }) => ({
    path,
    name,
    mediaType,
    size: bytes.length,
    sha256: createHash("sha256").update(bytes).digest("hex"),
  }));
  const metadata = json(metadataPath, "", crateMetadata(aboutOf(bundle), described));
  const all = [metadata, ...files];
  const total = all.reduce((sum, file) => sum + file.bytes.length, 0);
  if (total > limits.bytes)
    invalid("archive", `${(total / 1e6).toPrecision(3)} MB`, "", `at most ${limits.bytes / 1e6} MB can be read again`);
  if (all.length > limits.files)
    invalid("archive", `${all.length} files`, "", `at most ${limits.files} can be read again`);
  return zipFiles(all);
}
