import { useQueryClient } from "@tanstack/react-query";
import { useRef, useState } from "react";
import { makeAnswer } from "../../api/enquiries.ts";

export interface MakeAnswer {
  readonly working: boolean;
  readonly line: string | null;
  readonly make: () => Promise<void>;
  readonly cancel: () => void;
}

/** Asks the server to work the whole enquiry; leaving the request ends the work there. */
export function useMakeAnswer(enquiryId: string, onMade: (answerId: string) => void): MakeAnswer {
  const queries = useQueryClient();
  const [working, setWorking] = useState(false);
  const [line, setLine] = useState<string | null>(null);
  const abort = useRef<AbortController | null>(null);
  const make = async () => {
    const stop = new AbortController();
    abort.current = stop;
    setWorking(true);
    setLine(null);
    try {
      const made = await makeAnswer(enquiryId, stop.signal);
      onMade(made.id);
      await queries.invalidateQueries({ queryKey: ["answers", enquiryId] });
    } catch (error) {
      if (!stop.signal.aborted) setLine(error instanceof Error ? error.message : String(error));
    }
    setWorking(false);
  };
  return { working, line, make, cancel: () => abort.current?.abort() };
}
