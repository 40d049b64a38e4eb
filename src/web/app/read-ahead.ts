import { type QueryClient, useQueryClient } from "@tanstack/react-query";
import { useEffect } from "react";
import { steps } from "../enquiry/steps.ts";
import { pages } from "./pages.ts";

/** What a person goes to next from a list; fetched while nothing else is to do, so that going there is not waiting for it. */
const next: readonly ((queries: QueryClient) => Promise<unknown>)[] = [
  pages.list.read,
  (queries) => import("../enquiries/use-enquiries.ts").then((m) => m.readEnquiries(queries)),
  pages.enquiry.read,
  pages.archive.read,
  steps.results.read,
  () => import("#contract"),
  (queries) => import("../archive/use-archive.ts").then((m) => m.readNewest(queries)),
  ...[steps.part, steps.lasers, steps.setting, steps.trial, steps.window].map((step) => step.read),
  ...[steps.comparison, steps.economy, steps.report, pages.library].map((page) => page.read),
];

/** ms before the first one where the browser does not say when it is idle. */
const LATER = 1500;
/** ms that the page which was opened has to itself. */
const SETTLE = 500;

/** Reads the next pages' scripts and lists one after the other, each when the page is idle. What fails is fetched when it is needed. */
export function useReadAhead(): void {
  const queries = useQueryClient();
  useEffect(() => {
    let stopped = false;
    const idle = (work: () => void) =>
      "requestIdleCallback" in window ? requestIdleCallback(work) : setTimeout(work, LATER);
    const read = (at: number) => {
      const load = next[at];
      if (stopped || load === undefined) return;
      void load(queries)
        .catch(() => undefined)
        .then(() => idle(() => read(at + 1)));
    };
    // The page that was opened comes first, with what it asks the server for.
    const begin = () => {
      if (stopped) return;
      if (queries.isFetching() > 0) setTimeout(begin, SETTLE);
      else idle(() => read(0));
    };
    const timer = setTimeout(begin, SETTLE);
    return () => {
      stopped = true;
      clearTimeout(timer);
    };
  }, [queries]);
}
