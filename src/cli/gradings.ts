import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { type GradingWire, parseGrading } from "#contract";
import type { GradedFigure } from "#report";
import type { Trial } from "#terms";
import { invalid } from "#units";
import { gradedFigure } from "#workflows";
import { readJson } from "./files.ts";
import { jpegAddress } from "./graded-picture.ts";

/** Name of the picture that `grade` writes beside a grading. */
export const flatName = ({ id }: GradingWire): string => `${id}.flat.jpg`;

/** A graded coupon with the picture that lies beside its file. */
export interface GradingFile {
  readonly grading: GradingWire;
  readonly flat: Uint8Array | null;
}

/** Graded coupons of the trials given, for a report; one of another trial is refused. */
export function gradedFigures(files: readonly GradingFile[], trials: readonly Trial[]): GradedFigure[] {
  return files.flatMap(({ grading, flat }) => {
    const trial =
      trials.find(({ id }) => id === grading.trial) ??
      invalid("grading", grading.id, "", `its trial ${grading.trial} is not among those of the report`);
    return gradedFigure(trial, grading, flat === null ? null : jpegAddress(flat)) ?? [];
  });
}

/** Graded coupons as `grade` wrote them. A picture that is not the one graded is refused; a missing one is left out. */
export function loadGradings(files: readonly string[] = []): Promise<GradingFile[]> {
  return Promise.all(
    files.map(async (file) => {
      const grading = parseGrading(await readJson(file, "grading"));
      if (grading.flat === null) return { grading, flat: null };
      const path = join(dirname(file), flatName(grading));
      const bytes = await readFile(path).catch(() => null);
      if (bytes !== null && createHash("sha256").update(bytes).digest("hex") !== grading.flat)
        invalid("picture", path, "", "is not the one that was made with the grading");
      return { grading, flat: bytes };
    }),
  );
}
