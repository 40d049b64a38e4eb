import { useQuery } from "@tanstack/react-query";
import type { PartDetailsWire } from "#contract";
import { getDetails } from "../api/answers.ts";
import { type AnswerLine, listAnswers } from "../api/enquiries.ts";

export interface KeptAnswer {
  /** undefined until it is known; null where no answer was written */
  readonly line: AnswerLine | null | undefined;
  /** what it says of one part; null where it was kept by an earlier version, or while it is not known */
  readonly part: PartDetailsWire | null;
  readonly shopVersion: number;
  /** something that it stands on was saved since: the enquiry, a trial, an outcome, a reading */
  readonly outdated: boolean;
  /** why the details cannot be had */
  readonly problem: string | null;
}

/** An answer of an enquiry, the newest where none is named, with what it says of one part. */
export function useAnswer(enquiryId: string, partId: string, chosen: string | null = null): KeptAnswer {
  const answers = useQuery({ queryKey: ["answers", enquiryId], queryFn: () => listAnswers(enquiryId) });
  const list = answers.data?.answers;
  const line = list === undefined ? undefined : (list.find((a) => a.id === chosen) ?? list[0] ?? null);
  const details = useQuery({
    queryKey: ["details", line?.id ?? ""],
    queryFn: () => getDetails(line?.id ?? ""),
    enabled: !!line,
    // An answer never changes once it is kept.
    staleTime: Number.POSITIVE_INFINITY,
    retry: false,
  });
  return {
    line: answers.isError ? null : line,
    part: details.data?.details.parts.find((p) => p.part === partId) ?? null,
    shopVersion: details.data?.shopVersion ?? 0,
    outdated: changed(answers.data?.changedAt, details.data?.changedAt),
    problem: details.error?.message ?? null,
  };
}

const changed = (now: string | null | undefined, then: string | null | undefined): boolean =>
  !!now && !!then && now !== then;
