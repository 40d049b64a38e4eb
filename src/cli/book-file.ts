import { readFile } from "node:fs/promises";
import type { Ray } from "#edges";
import type { LaserSetup, Trial } from "#terms";
import { bookOf, type EdgeBook, fullPower, MODEL_VERSION, type PartModel, trialBook } from "#workflows";
import { bookText, keptRays, nameOfInputs, sameRay } from "./book-text.ts";
import { writeWhole } from "./files.ts";

export interface BookOptions {
  readonly rays?: number;
  readonly looks?: number;
  readonly onProgress?: (done: number, of: number) => void;
}

/** A book that keeps what it has solved beside its trial's file. */
export interface KeptBook {
  readonly book: EdgeBook;
  /** Writes what was solved since it was read; the file's name where something was written. */
  keep(): Promise<string | null>;
}

/** Larger files are not written: own choice. */
const BYTES_MAX = 2_000_000;

/**
 * The edges of a trial's settings, from the file beside the trial where it was written for the very same inputs, else
 * solved. The numbers are the same either way. The file is a convenience: one that is damaged, of another version of the
 * physics or not to be written is passed over without a word.
 */
export async function keptBook(
  file: string,
  model: PartModel,
  setup: LaserSetup,
  trial: Trial,
  options: BookOptions,
): Promise<KeptBook> {
  const path = `${file.replace(/(\.trial)?\.json$/, "")}.edges.json`;
  const { rays, looks } = options;
  const { part, seed, beliefs } = model;
  const settings = trial.patches.map((p) => p.setting);
  const inputs = nameOfInputs([MODEL_VERSION, part, setup, settings, seed, model.draws.length, beliefs, rays, looks]);
  const text = await readFile(path, "utf8").catch(() => "");
  const found = keptRays(text, inputs);
  const known = found !== null && stillSolvedSo(model, setup, found.rays[0]) ? found : null;
  const book = known ? bookOf(model, setup, known.rays) : trialBook(model, setup, trial, options);
  const besides = new Map((known?.besides ?? []).map((ray) => [JSON.stringify(ray.setting), ray]));
  let solved = known === null;
  return {
    book: {
      ...book,
      solve(setting, lesser = true) {
        const key = JSON.stringify(fullPower(setup, setting, null));
        const kept = besides.get(key);
        if (kept !== undefined && (!lesser || hasLesser(kept))) return kept;
        const ray = book.solve(setting, lesser);
        solved = true;
        besides.set(key, ray);
        return ray;
      },
    },
    async keep() {
      const whole = solved ? bookText(inputs, { rays: book.rays, besides: [...besides.values()] }) : "";
      if (whole === "" || whole.length > BYTES_MAX) return null;
      return writeWhole(path, whole).then(
        () => path,
        () => null,
      );
    },
  };
}

/** A ray for maps stands with its lesser edges at the others, see `patchEdges`. */
const hasLesser = (ray: Ray): boolean => ray.half.some((half, j) => half !== ray.clean[j]);

/** The first ray solved once more: a program that has come to solve it otherwise does not take the old one. */
function stillSolvedSo(model: PartModel, setup: LaserSetup, first: Ray | undefined): boolean {
  return first === undefined || sameRay(first, bookOf(model, setup, []).solve(first.setting));
}
