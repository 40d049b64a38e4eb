import { type QueryClient, useQuery } from "@tanstack/react-query";
import { listEnquiries } from "../api/enquiries.ts";

const asked = {
  queryKey: ["enquiries"],
  queryFn: ({ signal }: { readonly signal: AbortSignal }) => listEnquiries(signal),
};

/** Lines of all enquiries, last saved first. */
export const useEnquiries = () => useQuery(asked);

/** Reads them ahead, so that the list stands when it is opened. */
export const readEnquiries = (queries: QueryClient): Promise<void> => queries.prefetchQuery(asked);
