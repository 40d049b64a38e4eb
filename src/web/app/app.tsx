import { Suspense } from "react";
import { useUnitSystem } from "../show/unit-system.ts";
import { words } from "../words/index.ts";
import { Boundary } from "./boundary.tsx";
import { useNewPageTop } from "./new-page-top.ts";
import { pages } from "./pages.ts";
import { useReadAhead } from "./read-ahead.ts";
import { usePlace } from "./route.ts";
import { TopBar } from "./top-bar.tsx";

export function App() {
  const place = usePlace();
  // Numbers are text by the time they are on a page: another system of units draws every page anew, with all that was
  // entered in it. What is drawn only when its own values change asks for the system itself.
  useUnitSystem();
  useReadAhead();
  useNewPageTop(place);
  return (
    <div className="frame">
      <a className="skip" href="#work" onClick={skipToWork}>
        {words.frame.skip}
      </a>
      {place.page === "enquiry" ? null : <TopBar />}
      <Boundary key={place.page + place.enquiryId + (place.page === "bench" ? place.path[0] : "")}>
        <Suspense fallback={<p className="page quiet">{words.frame.opening}</p>}>
          {place.page === "enquiry" && place.enquiryId ? (
            <pages.enquiry key={place.enquiryId} enquiryId={place.enquiryId} place={place} />
          ) : place.page === "library" ? (
            <pages.library place={place} />
          ) : place.page === "archive" ? (
            <pages.archive place={place} />
          ) : place.page === "bench" && place.path[0] ? (
            <pages.bench trialId={place.path[0]} />
          ) : (
            <pages.list />
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
