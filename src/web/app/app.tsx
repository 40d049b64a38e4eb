import { lazy, Suspense } from "react";
import { words } from "../words/index.ts";
import { Boundary } from "./boundary.tsx";
import { usePlace } from "./route.ts";
import { TopBar } from "./top-bar.tsx";

const EnquiryList = lazy(() => import("../enquiries/enquiry-list.tsx").then((m) => ({ default: m.EnquiryList })));
const EnquiryPage = lazy(() => import("../enquiry/enquiry-page.tsx").then((m) => ({ default: m.EnquiryPage })));
const LibraryPage = lazy(() => import("../library/library-page.tsx").then((m) => ({ default: m.LibraryPage })));

export function App() {
  const place = usePlace();
  return (
    <div className="frame">
      <a className="skip" href="#work" onClick={skipToWork}>
        {words.frame.skip}
      </a>
      {place.page === "enquiry" ? null : <TopBar />}
      <Boundary key={place.page + place.enquiryId}>
        <Suspense fallback={<p className="page quiet">{words.frame.opening}</p>}>
          {place.page === "enquiry" && place.enquiryId ? (
            <EnquiryPage key={place.enquiryId} enquiryId={place.enquiryId} place={place} />
          ) : place.page === "library" ? (
            <LibraryPage />
          ) : (
            <EnquiryList />
          )}
        </Suspense>
      </Boundary>
    </div>
  );
}

/** The address holds the place, so the skip link moves the focus itself. */
function skipToWork(event: React.MouseEvent): void {
  event.preventDefault();
  document.getElementById("work")?.focus();
}
