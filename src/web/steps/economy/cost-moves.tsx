import { type CostFigure, costFigureWords } from "#cost";
import { pageTheme } from "#drawing";
import { drawingSvg, type PartJob } from "#report";
import { formatNumber } from "#units";
import { SvgPicture } from "../../show/svg-picture.tsx";
import { words } from "../../words/index.ts";

const say = words.economy;

/** One bar for each figure that moves the cost, and the same as a table. */
export function CostMoves({ job }: { readonly job: PartJob }) {
  const { sensitivity, currency } = job;
  if (sensitivity.rows.length === 0) return null;
  const svg = drawingSvg({ kind: "cost-bars", sensitivity, currency, note: say.movesNote }, "cost-bars", pageTheme);
  const cost = (value: number): string => `${formatNumber(value, 3)} ${currency}/m²`;
  return (
    <div className="stack tight">
      <h3>{say.moves}</h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="table wide-picture" tabIndex={0} aria-label={say.moves}>
        <SvgPicture svg={svg} label={say.moves} />
      </section>
      <details>
        <summary className="small">{say.movesTable}</summary>
        {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
        <section className="table" tabIndex={0} aria-label={say.movesTable}>
          <table className="grid">
            <thead>
              <tr>
                <th>{say.figure}</th>
                <th className="num">{say.atLow}</th>
                <th className="num">{say.atHigh}</th>
              </tr>
            </thead>
            <tbody>
              {sensitivity.rows.map((row) => (
                <tr key={row.name}>
                  <td>{costFigureWords[row.name as CostFigure].name}</td>
                  <td className="num">{cost(row.resultAtLow)}</td>
                  <td className="num">{cost(row.resultAtHigh)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
      </details>
    </div>
  );
}
