import { nextRows, settingLine } from "#report";
import type { NextPatch } from "#terms";
import { words } from "../../words/index.ts";

/** What to burn next, equal patches counted, and why. */
export function NextPatches({ next }: { readonly next: readonly NextPatch[] }) {
  return (
    <section className="sheet stack tight">
      <h2>{words.window.next}</h2>
      {next.length === 0 ? <p className="quiet">{words.window.nextNone}</p> : null}
      <ol>
        {nextRows(next).map((n) => (
          <li key={`${settingLine(n.setting)} ${n.reason}`}>
            <strong>{words.window.nextPatches(n.patches)}</strong>: {settingLine(n.setting)}
            <span className="quiet"> — {n.reason}</span>
          </li>
        ))}
      </ol>
    </section>
  );
}
