import { linkTo } from "../app/route.ts";
import { words } from "../words/index.ts";

/** Questions that teach how to ask; each is a link, so that it can be sent on. */
export function Examples() {
  return (
    <ul className="examples small" aria-label={words.archive.examplesLabel}>
      {words.archive.examples.map((text) => (
        <li key={text}>
          <a href={linkTo({ page: "archive", query: { text } })}>{text}</a>
        </li>
      ))}
    </ul>
  );
}
