import { learntRows } from "#report";
import type { WindowResult } from "#terms";
import { words } from "../../words/index.ts";

/** What the patches pin down whatever the properties behind it are: before and after, and how much of the spread is left. */
export function PinnedNumbers({ window }: { readonly window: WindowResult }) {
  const rows = learntRows(window.learnt.pinned);
  if (rows.length === 0) return null;
  return (
    <section className="sheet stack tight">
      <h2>{words.window.pinned}</h2>
      <p className="small quiet">{words.window.pinnedAt[window.recommended ? "recommended" : "likeliest"]}</p>
      <div className="table">
        <table className="grid">
          <thead>
            <tr>
              <th scope="col">{words.window.quantity}</th>
              <th scope="col">{words.window.before}</th>
              <th scope="col">{words.window.after}</th>
              <th scope="col">{words.window.left}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.name}>
                <td>{row.name}</td>
                <td>{row.before}</td>
                <td>{row.after}</td>
                <td>{row.left}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}
