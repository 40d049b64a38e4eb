import { timeKinds, timeWords } from "#cost";
import type { PartJob } from "#report";
import { formatNumber } from "#units";
import { quantityText } from "../../show/quantity-text.ts";
import { FigureText } from "../../show/figure.tsx";
import { WordButton } from "../../show/maybe-number.tsx";
import { words } from "../../words/index.ts";
import { CostMoves } from "./cost-moves.tsx";
import { figuresOf } from "./figures-of.ts";
import type { Typed } from "./shop-text.ts";

const say = words.economy;
const hours = (value: number): string => formatNumber(value, value < 10 ? 2 : 3);
const money = (value: number): string => formatNumber(value, 3);

/** The form stands at the end of the page: take the person there, and the keyboard with them. */
function toForm(): void {
  const form = document.getElementById("shop-figures");
  form?.scrollIntoView();
  form?.querySelector("input")?.focus({ preventScroll: true });
}

/** Delivery with its reasons, time by what it goes into, cost with its range and what moves it. */
export function JobSection({ job, typed }: { readonly job: PartJob; readonly typed: Typed }) {
  const { advice, rate, hours: h, cost, currency, breakEven, payback, basis } = job;
  const { own, missing } = figuresOf(typed);
  const figure = (name: string, { low, middle, high }: PartJob["cost"]["perArea"], unit: string) => (
    <FigureText name={name} note={say.between(money(low), `${money(high)} ${unit}`)}>
      {money(middle)}
      <span className="unit">{unit}</span>
    </FigureText>
  );
  return (
    <section className="sheet stack">
      <div className="row apart middle">
        <h2>{say.cost}</h2>
        <span className={missing === 0 ? "tag good" : "tag warn"}>
          {own === 0 ? say.invented : missing === 0 ? say.ownFigures : say.someOwn(own)}
        </span>
      </div>
      {missing === 0 ? null : (
        <div className="note warn">
          <p>{own === 0 ? say.inventedNote : say.partlyNote(missing)}</p>
          <WordButton onClick={toForm}>{say.enter}</WordButton>
        </div>
      )}
      <dl className="figures">
        <FigureText name={say.orderHours} note={say.between(hours(h.low), `${hours(h.high)} h`)}>
          {hours(h.middle)}
          <span className="unit">h</span>
        </FigureText>
        {figure(say.perArea, cost.perArea, `${currency}/m²`)}
        {figure(say.perPart, cost.perPart, currency)}
        {figure(say.total, cost.total, currency)}
      </dl>
      <p className="quiet small">{say.rangeHelp}</p>
      <div className="stack tight">
        <h3>{say.brought(words.deliveries[rate.delivery] ?? rate.delivery)}</h3>
        <ul>
          {advice.reasons.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
        {advice.others.length === 0 ? null : (
          <>
            <p className="quiet small">{say.others}</p>
            <ul className="small">
              {advice.others.map(({ delivery, why }) => (
                <li key={delivery}>{why}</li>
              ))}
            </ul>
          </>
        )}
        <ul className="small quiet">
          {advice.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="table" tabIndex={0} aria-label={say.time}>
        <table className="grid">
          <caption>{say.time}</caption>
          <thead>
            <tr>
              <th>{say.goesInto}</th>
              <th className="num">{say.hours}</th>
              <th className="num">{say.share}</th>
              <td className="bar" aria-hidden="true" />
            </tr>
          </thead>
          <tbody>
            {timeKinds
              .filter((kind) => rate.time[kind] > 0)
              .map((kind) => (
                <tr key={kind}>
                  <td>{timeWords[kind]}</td>
                  <td className="num">{hours(rate.time[kind] / 3600)} h</td>
                  <td className="num">{quantityText(rate.shares[kind], "%", 2)}</td>
                  <td className="bar" aria-hidden="true">
                    <span style={{ width: `${100 * rate.shares[kind]}%` }} />
                  </td>
                </tr>
              ))}
          </tbody>
        </table>
      </section>
      <dl className="figures">
        <FigureText name={say.beamRate}>{quantityText(rate.beamRate, "m2/h", 3)}</FigureText>
        <FigureText name={say.orderRate}>{quantityText(rate.area / rate.total, "m2/h", 3)}</FigureText>
      </dl>
      <CostMoves job={job} />
      <div className="stack tight">
        <h3>{say.breakEven}</h3>
        <p>{breakEven.words}</p>
        {payback === null ? null : <p>{payback.words}</p>}
      </div>
      <div className="stack tight">
        <h3>{say.basis}</h3>
        <ul className="small">
          {basis.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
    </section>
  );
}
