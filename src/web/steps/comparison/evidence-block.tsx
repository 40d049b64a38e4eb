import type { EvidenceWire } from "#contract";
import { words } from "../../words/index.ts";
import { sideRows } from "./side-rows.ts";

const say = words.comparison;

/** Pulsed and continuous in two columns of the same rows, by what was burned, with the sentence of why. */
export function EvidenceBlock({ found }: { readonly found: EvidenceWire }) {
  const { pulsed, continuous, equal, unequal, cautions } = found;
  return (
    <section className="sheet stack">
      <header className="stack tight">
        <h2>{say.evidence}</h2>
        <p className="quiet small">{say.evidenceLead}</p>
      </header>
      <div className="note">
        {found.words.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="table" tabIndex={0} aria-label={say.table}>
        <table className="grid sides">
          <thead>
            <tr>
              <th scope="col">{say.quantity}</th>
              <th scope="col">{say.pulsed}</th>
              <th scope="col">{say.continuous}</th>
            </tr>
          </thead>
          <tbody>
            {sideRows.map(([name, show]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{pulsed ? show(pulsed) : say.notTried}</td>
                <td>{continuous ? show(continuous) : say.notTried}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <div className="pair small">
        <Lines title={say.equal} lines={equal} />
        <Lines title={say.unequal} lines={unequal} />
      </div>
      <div className="note warn">
        <h3>{say.cautions}</h3>
        <ul>
          {cautions.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
    </section>
  );
}

function Lines({ title, lines }: { readonly title: string; readonly lines: readonly string[] }) {
  return (
    <div>
      <h3>{title}</h3>
      {lines.length === 0 ? (
        <p className="quiet">{say.nothing}</p>
      ) : (
        <ul className="plain">
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
