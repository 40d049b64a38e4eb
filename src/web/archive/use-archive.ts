import { keepPreviousData, type QueryClient, useInfiniteQuery, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { type ArchiveAsk, type ArchiveHit, type ArchivePage, askArchive } from "../api/archive.ts";

export interface ArchiveView {
  /** the first page of what is shown, null before there is one */
  readonly page: ArchivePage | null;
  readonly hits: readonly ArchiveHit[];
  /** alike enough, and not shown yet */
  readonly left: number;
  readonly line: string | null;
  readonly searching: boolean;
  readonly cancelled: boolean;
  readonly more: () => void;
  readonly cancel: () => void;
  readonly again: () => void;
}

const keyOf = (ask: ArchiveAsk): string[] => [
  "archive",
  ask.text ?? "",
  ask.enquiry ?? "",
  ask.part ?? "",
  ask.laser ?? "",
];

/** Reads the newest trials ahead, so that the page stands when it is opened. */
export const readNewest = (queries: QueryClient): Promise<void> =>
  queries.prefetchInfiniteQuery({
    queryKey: keyOf({}),
    queryFn: ({ signal }) => askArchive({}, 0, signal),
    initialPageParam: 0,
  });

/** The archive's answer to what is asked; a newer question ends the one before, and what was found stays until then. */
export function useArchive(ask: ArchiveAsk): ArchiveView {
  const queries = useQueryClient();
  const queryKey = keyOf(ask);
  const [cancelledKey, setCancelledKey] = useState<string | null>(null);
  const found = useInfiniteQuery({
    queryKey,
    queryFn: ({ signal, pageParam }) => askArchive(ask, pageParam, signal),
    initialPageParam: 0,
    getNextPageParam: (last: ArchivePage) => {
      const next = last.offset + last.trials.length;
      return last.trials.length > 0 && next < last.near ? next : undefined;
    },
    placeholderData: keepPreviousData,
    retry: false,
  });
  const pages = found.data?.pages ?? [];
  const hits = pages.flatMap((page) => page.trials);
  return {
    page: pages[0] ?? null,
    hits,
    left: Math.max(0, (pages.at(-1)?.near ?? 0) - hits.length),
    line: found.error?.message ?? null,
    searching: found.isFetching,
    cancelled: cancelledKey === queryKey.join("\n") && !found.isFetching,
    more: () => void found.fetchNextPage(),
    cancel: () => {
      setCancelledKey(queryKey.join("\n"));
      void queries.cancelQueries({ queryKey });
    },
    again: () => {
      setCancelledKey(null);
      void found.refetch();
    },
  };
}
