import { useQuery } from "@tanstack/react-query";
import { seenReadings } from "#contract";
import { type WrongReadings, wrongReadings } from "#grading";
import { type GradingRecord, listGradings } from "../api/photographs.ts";

export const gradingsKey = (trialId: string) => ["gradings", trialId] as const;

/** Graded coupons of a trial as they are kept; undefined until they are known. */
export function useGradings(trialId: string): readonly GradingRecord[] | undefined {
  const { data } = useQuery({
    queryKey: gradingsKey(trialId),
    queryFn: async () => (await listGradings(trialId)).gradings,
    enabled: trialId !== "",
  });
  return data;
}

/** What the readings that people looked at teach of wrong ones. */
export function learntOf(records: readonly GradingRecord[]): WrongReadings {
  return wrongReadings(records.map(({ grading }) => seenReadings(grading)));
}
