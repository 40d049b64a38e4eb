import { linkTo } from "../app/route.ts";
import { words } from "../words/index.ts";
import { Examples } from "./examples.tsx";

const say = words.archive;

interface Props {
  /** nothing is kept; nothing is like it; the question names nothing */
  readonly why: "none" | "nothing" | "unread";
}

/** An archive without rows says why, and what to do. */
export function EmptyArchive({ why }: Props) {
  if (why === "none")
    return (
      <section className="empty">
        <h2>{say.noneTitle}</h2>
        <p className="quiet">{say.none}</p>
        <a href={linkTo({})}>{say.toList}</a>
      </section>
    );
  return (
    <section className="empty">
      <h2>{why === "nothing" ? say.nothingTitle : say.unreadTitle}</h2>
      <p className="quiet">{why === "nothing" ? say.nothing : say.unread}</p>
      {why === "unread" ? <Examples /> : null}
    </section>
  );
}
