import { Button } from "@mantine/core";
import { words } from "../words/index.ts";
import { entryText } from "./entry-text.ts";
import type { Bench } from "./use-bench.ts";

const say = words.bench;

/** What the server did not take, with its reason, until somebody has seen to it. */
export function RefusedEntries({ bench }: { readonly bench: Bench }) {
  const { refused } = bench.state;
  if (refused.length === 0) return null;
  return (
    <section className="note bad stack tight" role="alert">
      <h2>{say.refusedTitle}</h2>
      <p className="small">{say.refusedHelp}</p>
      <ul className="noted">
        {refused.map(({ id, entry, line }) => (
          <li key={id}>
            <span>
              {entryText(entry)} <span className="small">({line})</span>
            </span>
            <span className="row">
              <Button size="md" variant="default" onClick={() => bench.sendAgain(id)}>
                {say.sendAgain}
              </Button>
              <Button size="md" variant="default" onClick={() => bench.dismiss(id)}>
                {say.dismiss}
              </Button>
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
