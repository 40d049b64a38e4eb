import { useEffect, useState } from "react";
import type { Enquiry } from "#terms";
import { useSettledLibrary } from "../library/use-library.ts";
import { allWorkers, quickWorker } from "../live/worker-client.ts";
import type { EnquiryDoc } from "./doc.ts";

/** The enquiry resolved against the library, in SI, by the worker; or one line of why it cannot be. */
export function useEnquiryModel(doc: EnquiryDoc | null): {
  readonly enquiry: Enquiry | null;
  readonly problem: string | null;
} {
  const [state, setState] = useState<{ enquiry: Enquiry | null; problem: string | null }>({
    enquiry: null,
    problem: null,
  });
  const library = useSettledLibrary();
  useEffect(() => {
    // An enquiry on an own metal would be refused for as long as the own entries are not there.
    if (!doc || !library) return;
    let current = true;
    const timer = setTimeout(() => {
      for (const worker of allWorkers) worker.setDocument(doc);
      quickWorker.ask("enquiry", { doc }).then(
        (enquiry) => current && setState({ enquiry, problem: null }),
        (error: Error) => current && setState({ enquiry: null, problem: error.message }),
      );
    }, 60);
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [doc, library]);
  return state;
}
