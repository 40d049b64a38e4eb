import { useQuery } from "@tanstack/react-query";
import type { LogbookWire } from "#contract";
import { getLogbook } from "../api/enquiries.ts";
import { linkTo } from "../app/route.ts";
import { whenText } from "../show/when.ts";
import { words } from "../words/index.ts";

type Line = LogbookWire["lines"][number];

const say = words.logbook;

/** Everything that was saved under the enquiry: nothing is ever overwritten, so this is all that happened to it. */
export function Logbook({ enquiryId, opened }: { readonly enquiryId: string; readonly opened: boolean }) {
  const book = useQuery({
    queryKey: ["logbook", enquiryId],
    queryFn: () => getLogbook(enquiryId),
    enabled: opened,
    staleTime: 0,
  });
  if (book.error) return <p className="note bad">{book.error.message}</p>;
  return (
    <section className="stack tight">
      <h3>{say.title}</h3>
      <p className="quiet small">{say.lead}</p>
      <ol className="logbook">
        {(book.data?.lines ?? []).map((line) => (
          <li key={`${line.what} ${line.id} ${line.version} ${line.savedAt} ${line.grader}`}>
            <span className="small quiet">{whenText(line.savedAt)}</span>
            <span>{lineText(line)}</span>
            {line.what === "trial" || line.what === "outcomes" ? (
              <a
                href={linkTo({
                  enquiryId,
                  step: line.what === "trial" ? "trial" : "results",
                  query: { trial: line.id },
                })}
              >
                {say.look}
              </a>
            ) : null}
          </li>
        ))}
      </ol>
      {book.data?.more ? <p className="small quiet">{say.more}</p> : null}
    </section>
  );
}

function lineText({ what, id, version, count, grader }: Line): string {
  if (what === "outcomes") return say.outcomes(count ?? 0, id, grader ?? "");
  if (what === "answer") return say.answer(id);
  const name = say.kinds[what as keyof typeof say.kinds] ?? what;
  return what === "enquiry" || what === "shop-record"
    ? say.version(name, version ?? 1)
    : say.record(name, id, version ?? 1);
}
