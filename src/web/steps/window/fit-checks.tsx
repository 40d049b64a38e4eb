import { furtherCaveats } from "#report";
import type { WindowResult } from "#terms";
import { formatNumber } from "#units";
import { FigureText } from "../../show/figure.tsx";
import { words } from "../../words/index.ts";

/** Whether what was learnt fits what was seen, and what is to be borne in mind. */
export function FitChecks({ window, versions }: { readonly window: WindowResult; readonly versions: number }) {
  const { diagnostics: d, learnt } = window;
  const caveats = furtherCaveats(window);
  return (
    <section className="sheet stack tight">
      <h2>{words.window.checks}</h2>
      <dl className="figures">
        <FigureText name={words.window.patches}>{d.patches}</FigureText>
        <FigureText name={words.window.cleanCount}>{d.clean}</FigureText>
        <FigureText name={words.window.damagedCount}>{d.damaged}</FigureText>
        <FigureText
          name={words.window.brier}
        >{`${formatNumber(d.brierClean, 2)} / ${formatNumber(d.brierUndamaged, 2)}`}</FigureText>
        <FigureText name={words.window.rHat}>{formatNumber(d.rHat, 4)}</FigureText>
        <FigureText name={words.window.ess}>{formatNumber(d.effectiveSampleSize, 3)}</FigureText>
      </dl>
      <Lines items={learnt.words} />
      <p className="small quiet">{`${d.priorMatters} ${words.window.versions(versions)}`}</p>
      {caveats.length > 0 ? (
        <>
          <h3>{words.window.caveats}</h3>
          <Lines items={caveats} />
        </>
      ) : null}
    </section>
  );
}

function Lines({ items }: { readonly items: readonly string[] }) {
  return (
    <ul className="small">
      {[...new Set(items)].map((item) => (
        <li key={item}>{item}</li>
      ))}
    </ul>
  );
}
