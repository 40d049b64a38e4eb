import { SegmentedControl } from "@mantine/core";
import { useState } from "react";
import { words } from "../../words/index.ts";
import "./comparison-block.css";
import { type Compared, comparedRows } from "./compared.ts";

type View = "equalPower" | "eachAtBest";

/** Pulsed and continuous in two columns of the same rows, at equal mean power and each at its best. */
export function ComparisonBlock({ compared }: { readonly compared: Compared }) {
  const [view, setView] = useState<View>("equalPower");
  const side = compared[view];
  return (
    <section className="sheet stack">
      <div className="row apart middle">
        <h2>{`${words.lasers.pulsed} / ${words.lasers.continuous}`.replace(/^./, (c) => c.toUpperCase())}</h2>
        <SegmentedControl
          aria-label={words.lasers.equalPower}
          value={view}
          onChange={(value) => setView(value as View)}
          data={[
            { value: "equalPower", label: words.lasers.equalPower },
            { value: "eachAtBest", label: words.lasers.eachBest },
          ]}
        />
      </div>
      <p>{side.sentence}</p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="table" tabIndex={0} aria-label={words.lasers.equalPower}>
        <table className="grid">
          <thead>
            <tr>
              <th>{view === "equalPower" ? compared.meanPower : words.lasers.eachBest}</th>
              <th>{words.lasers.pulsed}</th>
              <th>{words.lasers.continuous}</th>
            </tr>
          </thead>
          <tbody>
            {comparedRows.map((name, row) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{side.pulsed?.[row] ?? "–"}</td>
                <td>{side.continuous?.[row] ?? "–"}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {compared.equal.length + compared.unequal.length > 0 ? (
        <div className="pair small quiet">
          <Lines title={words.lasers.alike} lines={compared.equal} />
          <Lines title={words.lasers.unlike} lines={compared.unequal} />
        </div>
      ) : null}
    </section>
  );
}

function Lines({ title, lines }: { readonly title: string; readonly lines: readonly string[] }) {
  if (lines.length === 0) return <div />;
  return (
    <div>
      <h3>{title}</h3>
      <ul className="plain">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );
}
