import { SegmentedControl } from "@mantine/core";
import { useState } from "react";
import type { Comparison, SetupVerdict } from "#terms";
import { settingLine } from "#report";
import { formatQuantity } from "#units";
import { words } from "../../words/index.ts";

type View = "equalPower" | "eachAtBest";

/** Pulsed and continuous in two columns of the same rows, at equal mean power and each at its best. */
export function ComparisonBlock({ comparison }: { readonly comparison: Comparison }) {
  const [view, setView] = useState<View>("equalPower");
  const side = comparison[view];
  const rows: readonly [string, (v: SetupVerdict) => string][] = [
    [words.setting.setup, (v) => v.setupName],
    [words.lasers.power, (v) => formatQuantity(v.meanPower, "W")],
    [words.lasers.rate, (v) => formatQuantity(v.areaRate, "m2/h")],
    [words.lasers.sure, (v) => formatQuantity(v.sureness, "%", 2)],
    [words.setting.residue, (v) => formatQuantity(v.best?.residueFraction.median ?? null, "%", 2)],
    [words.setting.peak, (v) => formatQuantity(v.best?.metalPeakTemperature.median ?? null, "degC", 3)],
    [words.setting.condition, (v) => (v.best ? (words.grades[v.best.metalCondition] ?? "") : "–")],
    [words.lasers.best, (v) => (v.best ? settingLine(v.best.setting) : "–")],
  ];
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
              <th>
                {view === "equalPower" ? formatQuantity(comparison.equalPower.meanPower, "W") : words.lasers.eachBest}
              </th>
              <th>{words.lasers.pulsed}</th>
              <th>{words.lasers.continuous}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map(([name, show]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{side.pulsed ? show(side.pulsed) : "–"}</td>
                <td>{side.continuous ? show(side.continuous) : "–"}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {comparison.equal.length + comparison.unequal.length > 0 ? (
        <div className="split small quiet">
          <Lines title={words.lasers.alike} lines={comparison.equal} />
          <Lines title={words.lasers.unlike} lines={comparison.unequal} />
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
