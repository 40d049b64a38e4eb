import { useLayoutEffect, useRef } from "react";
import type { Place } from "./place.ts";

/** What a page is told from another by; a change of part, laser or question stays on its page. */
const pageOf = (place: Place): string =>
  place.page === "enquiry" ? `enquiry ${place.enquiryId} ${place.step}` : [place.page, ...place.path].join(" ");

/** A page that is opened begins at its head; one that is gone back to stands where the browser puts it. */
export function useNewPageTop(place: Place): void {
  const page = pageOf(place);
  const last = useRef<string | null>(null);
  useLayoutEffect(() => {
    const first = last.current === null;
    if (last.current === page) return;
    last.current = page;
    const been = (history.state as { seen?: boolean } | null)?.seen === true;
    if (!been) history.replaceState({ seen: true }, "");
    if (!first && !been) scrollTo(0, 0);
  }, [page]);
}
