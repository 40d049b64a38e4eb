import { useQuery } from "@tanstack/react-query";
import { seenReadings } from "#contract";
import { leastWrongShare, type WrongReadings, wrongReadings } from "#grading";
import { type GradingRecord, listGradings } from "../api/photographs.ts";

export const gradingsKey = (trialId: string) => ["gradings", trialId] as const;

/** Graded coupons of a trial as they are kept; undefined until they are known, none where they cannot be had. */
export function useGradings(trialId: string): readonly GradingRecord[] | undefined {
  const { data, isError } = useQuery({
    queryKey: gradingsKey(trialId),
    queryFn: async () => (await listGradings(trialId)).gradings,
    enabled: trialId !== "",
  });
  return data ?? (isError ? [] : undefined);
}

/** What the readings that people looked at teach of wrong ones. */
export function learntOf(records: readonly GradingRecord[]): WrongReadings {
  return wrongReadings(records.map(({ grading }) => seenReadings(grading)));
}

/** Share of wrong grades that the window reckons with; undefined while nobody has looked at a reading. */
export function lapseOf(records: readonly GradingRecord[]): number | undefined {
  const { looked, rate } = learntOf(records);
  return looked === 0 ? undefined : Math.max(leastWrongShare, rate);
}
