import { useQuery } from "@tanstack/react-query";
import { getDependants, type ShelfKey } from "../api/library.ts";
import { linkTo } from "../app/route.ts";
import { words } from "../words/index.ts";

interface Props {
  readonly shelf: ShelfKey;
  readonly id: string;
}

const say = words.library.used;

export const useDependants = (shelf: ShelfKey, id: string) =>
  useQuery({ queryKey: ["dependants", shelf, id], queryFn: () => getDependants(shelf, id), retry: false });

/** Enquiries, trials and lessons that use an entry, each with its way there. */
export function UsedBy({ shelf, id }: Props) {
  const { data, error } = useDependants(shelf, id);
  if (error) return <p className="note warn">{error.message}</p>;
  if (!data) return <p className="quiet small">{say.more}</p>;
  const { enquiries, trials, beliefs } = data;
  const none = enquiries.length + trials.length + beliefs.length === 0;
  return (
    <div className="stack tight">
      {shelf === "setups" ? <p>{say.allLasers}</p> : null}
      {none ? <p className="quiet">{shelf === "setups" ? say.noTrials : say.none}</p> : null}
      {enquiries.length > 0 ? <h3>{say.enquiries}</h3> : null}
      {enquiries.length > 0 ? (
        <ul className="plain">
          {enquiries.map((e) => (
            <li key={e.id}>
              <a href={linkTo({ enquiryId: e.id, step: "part", query: { part: e.parts[0] } })}>{e.title || e.id}</a>{" "}
              <span className="quiet small">
                {say.parts(e.parts.join(", "))}
                {e.named ? "" : `, ${say.asUnknown}`}
              </span>
            </li>
          ))}
        </ul>
      ) : null}
      {trials.length > 0 ? <h3>{say.trials}</h3> : null}
      {trials.length > 0 ? (
        <ul className="plain">
          {trials.map((t) => (
            <li key={t.id}>
              <a href={linkTo({ enquiryId: t.enquiry, step: "trial", query: { part: t.part, trial: t.id } })}>{t.id}</a>{" "}
              <span className="quiet small">{say.parts(t.part)}</span>
            </li>
          ))}
        </ul>
      ) : null}
      {beliefs.length > 0 ? <h3>{say.beliefs}</h3> : null}
      {beliefs.length > 0 ? (
        <ul className="plain">
          {beliefs.map((b) => (
            <li key={b.id}>
              <a href={linkTo({ enquiryId: b.enquiry, step: "window", query: { trial: b.trial } })}>{b.trial}</a>
            </li>
          ))}
        </ul>
      ) : null}
    </div>
  );
}
