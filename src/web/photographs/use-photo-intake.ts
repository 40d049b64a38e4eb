import { useQueryClient } from "@tanstack/react-query";
import { useMemo, useSyncExternalStore } from "react";
import { gradeOnServer, type GradingRecord, listGradings, putGrading, putPhoto } from "../api/photographs.ts";
import { noteFlat } from "./flat-pictures.ts";
import { keepHere, readKept } from "./kept-here.ts";
import { photoReader } from "./photo-reader.ts";
import { PhotoIntake, type IntakeState } from "./photo-intake.ts";
import { gradingsKey } from "./use-gradings.ts";

/** One for each trial, for as long as the page lives: reading goes on while a person looks elsewhere. */
const intakes = new Map<string, PhotoIntake>();

/** The photographs of a trial on their way, and a refresh of what the pages show of it. */
export function usePhotoIntake(
  trialId: string,
  enquiryId: string,
): { readonly intake: PhotoIntake; readonly state: IntakeState; readonly refresh: () => Promise<void> } {
  const queries = useQueryClient();
  const refresh = async (): Promise<void> => {
    await Promise.all([
      queries.invalidateQueries({ queryKey: gradingsKey(trialId) }),
      queries.invalidateQueries({ queryKey: ["trials", enquiryId] }),
    ]);
  };
  const intake = useMemo(() => {
    const known = intakes.get(trialId);
    if (known) return known;
    const made = new PhotoIntake(trialId, {
      putPhoto,
      read: (ask, onProgress) => photoReader.read(ask, onProgress),
      stopReading: () => photoReader.cancel(),
      gradeOnServer,
      putGrading: async (grading, version): Promise<GradingRecord> => {
        const record = await putGrading(grading, version);
        await refresh();
        return record;
      },
      gradings: async () => (await listGradings(trialId)).gradings,
      noteFlat,
      kept: () => readKept(trialId),
      keep: (kept) => keepHere(trialId, kept),
    });
    intakes.set(trialId, made);
    return made;
  }, [trialId]);
  const state = useSyncExternalStore(intake.subscribe, intake.state);
  return { intake, state, refresh };
}
