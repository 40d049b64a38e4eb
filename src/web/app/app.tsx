import { lazy, Suspense } from "react";
import { useUnitSystem } from "../show/unit-system.ts";
import { words } from "../words/index.ts";
import { Boundary } from "./boundary.tsx";
import { useReadAhead } from "./read-ahead.ts";
import { usePlace } from "./route.ts";
import { TopBar } from "./top-bar.tsx";

const EnquiryList = lazy(() => import("../enquiries/enquiry-list.tsx").then((m) => ({ default: m.EnquiryList })));
const EnquiryPage = lazy(() => import("../enquiry/enquiry-page.tsx").then((m) => ({ default: m.EnquiryPage })));
const LibraryPage = lazy(() => import("../library/library-page.tsx").then((m) => ({ default: m.LibraryPage })));
const ArchivePage = lazy(() => import("../archive/archive-page.tsx").then((m) => ({ default: m.ArchivePage })));
const BenchPage = lazy(() => import("../bench/bench-page.tsx").then((m) => ({ default: m.BenchPage })));

export function App() {
  const place = usePlace();
  // Numbers are text by the time they are on a page: another system of units sets every page anew.
  const units = useUnitSystem();
  useReadAhead();
  return (
    <div className="frame" key={units}>
      <a className="skip" href="#work" onClick={skipToWork}>
        {words.frame.skip}
      </a>
      {place.page === "enquiry" ? null : <TopBar />}
      <Boundary key={place.page + place.enquiryId + (place.page === "bench" ? place.path[0] : "")}>
        <Suspense fallback={<p className="page quiet">{words.frame.opening}</p>}>
          {place.page === "enquiry" && place.enquiryId ? (
            <EnquiryPage key={place.enquiryId} enquiryId={place.enquiryId} place={place} />
          ) : place.page === "library" ? (
            <LibraryPage place={place} />
          ) : place.page === "archive" ? (
            <ArchivePage place={place} />
          ) : place.page === "bench" && place.path[0] ? (
            <BenchPage trialId={place.path[0]} />
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
