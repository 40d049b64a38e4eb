import type { TemperatureTable } from "#terms";
import { noValue, quantityText, shownUnit, unitLabel } from "../show/quantity-text.ts";
import { words } from "../words/index.ts";
import { bareNumber } from "./panel-numbers.ts";

interface Props {
  readonly name: string;
  readonly table: TemperatureTable;
  readonly panel: string;
  /** the drawing alone, where its points stand beside it */
  readonly bare?: boolean;
}

const say = words.library.curve;
const width = 320;
const height = 132;
const left = 44;
const right = width - 8;
const top = 10;
const bottom = height - 26;

/** A property over temperature as a small curve with its spread as a soft band. */
export function Curve({ name, table, panel, bare }: Props) {
  const { temperature, value, relativeSpread } = table;
  const [first, last] = [temperature[0], temperature[temperature.length - 1]];
  if (first === undefined || last === undefined) return <span className="quiet">{noValue}</span>;
  const most = Math.max(...value) * (1 + relativeSpread);
  const x = (t: number) => left + ((right - left) * (t - first)) / Math.max(1e-9, last - first);
  const y = (v: number) => bottom - ((bottom - top) * v) / (most || 1);
  const line = (factor: number) => temperature.map((t, i) => `${x(t)},${y((value[i] ?? 0) * factor)}`);
  const band = [...line(1 + relativeSpread), ...line(1 - relativeSpread).reverse()].join(" ");
  const unit = unitLabel(shownUnit(panel));
  const digits = (v: number) => bareNumber(v, shownUnit(panel), 2);
  const warm = (t: number) => quantityText(t, "degC");
  const ends = [quantityText(value[0], panel), quantityText(value[value.length - 1], panel)] as const;
  return (
    <figure className="lib-curve">
      <svg viewBox={`0 0 ${width} ${height}`} role="img" aria-label={say.of(name, unit)}>
        <polygon points={band} fill="var(--accent-wash)" />
        <path d={`M${left} ${top} V${bottom} H${right}`} fill="none" stroke="var(--rule-strong)" />
        <polyline points={line(1).join(" ")} fill="none" stroke="var(--accent)" strokeWidth="1.6" />
        {temperature.length < 30
          ? temperature.map((t, i) => <circle key={t} cx={x(t)} cy={y(value[i] ?? 0)} r="1.8" fill="var(--accent)" />)
          : null}
        <g fontSize="11" fill="var(--quiet)">
          <text x={left + 6} y={top + 6}>
            {unit}
          </text>
          <text x={left - 5} y={y(most) + 8} textAnchor="end">
            {digits(most)}
          </text>
          <text x={left - 5} y={bottom + 3} textAnchor="end">
            0
          </text>
          <text x={left} y={height - 8}>
            {warm(first)}
          </text>
          <text x={right} y={height - 8} textAnchor="end">
            {warm(last)}
          </text>
        </g>
      </svg>
      {bare ? null : (
        <figcaption className="small quiet">
          {say.summary(name, ends[0], ends[1], `${warm(first)} … ${warm(last)}`)} {say.points(temperature.length)};{" "}
          {say.spread(quantityText(relativeSpread, "%", 2))}.
        </figcaption>
      )}
      {bare ? null : (
        <details className="small">
          <summary>{say.table}</summary>
          <div className="table">
            <table className="grid">
              <thead>
                <tr>
                  <th scope="col" className="num">
                    {say.temperature}
                  </th>
                  <th scope="col" className="num">
                    {name}
                  </th>
                </tr>
              </thead>
              <tbody>
                {temperature.map((t, i) => (
                  <tr key={t}>
                    <td className="num">{warm(t)}</td>
                    <td className="num">{quantityText(value[i], panel, 4)}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </div>
        </details>
      )}
    </figure>
  );
}
