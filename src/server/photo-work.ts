import type { PhotoKind } from "#photos";
import { decodePhoto } from "#photos";
import { InvalidInput } from "#units";
import { type GradedPhotographs, type GradeWork, gradePhotographs, type PhotoOf } from "./grade-photographs.ts";

/** What is done with photographs away from the thread that serves: each takes seconds of plain computing. */
export type PhotoWork =
  | { readonly kind: "check"; readonly bytes: Uint8Array }
  | ({ readonly kind: "grade" } & GradeWork);

/** What came of it; a refusal is one line. */
export type PhotoDone =
  | { readonly kind: "checked"; readonly photo: PhotoKind }
  | ({ readonly kind: "graded" } & GradedPhotographs)
  | { readonly kind: "refused"; readonly line: string };

export async function workPhotos(work: PhotoWork, photoOf: PhotoOf): Promise<PhotoDone> {
  try {
    if (work.kind === "check") return { kind: "checked", photo: (await decodePhoto(work.bytes)).kind };
    return { kind: "graded", ...(await gradePhotographs(work, photoOf)) };
  } catch (error) {
    if (error instanceof InvalidInput) return { kind: "refused", line: error.message };
    throw error;
  }
}
