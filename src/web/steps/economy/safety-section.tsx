import { pageTheme } from "#drawing";
import { drawingSvg } from "#report";
import { quantityText } from "../../show/quantity-text.ts";
import { EYEWEAR_DISTANCE, type SettingDetails } from "#workflows";
import { SvgPicture } from "../../show/svg-picture.tsx";
import { words } from "../../words/index.ts";

const say = words.economy;

/** How far the light can harm, drawn to scale and in numbers, the eyewear, and the cautions that go along. */
export function SafetySection({ details }: { readonly details: SettingDetails }) {
  const { hazards, eyewear, cautions } = details;
  return (
    <section className="sheet stack">
      <h2>{say.safety}</h2>
      <div className="note warn">
        <h3>{say.cautions}</h3>
        <ul>
          {cautions.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="table wide-picture" tabIndex={0} aria-label={say.plan}>
        <SvgPicture svg={drawingSvg({ kind: "hazard-plan", hazards }, "hazard", pageTheme)} label={say.plan} />
      </section>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <section className="table" tabIndex={0} aria-label={say.distances}>
        <table className="grid">
          <caption>{say.distancesHelp}</caption>
          <thead>
            <tr>
              <th>{say.path}</th>
              <th className="num">{say.eye}</th>
              <th className="num">{say.skin}</th>
            </tr>
          </thead>
          <tbody>
            {hazards.distances.map((d) => (
              <tr key={d.path}>
                <td>{d.path}</td>
                <td className="num">{quantityText(d.eyeShown, "m", 3)}</td>
                <td className="num">{quantityText(d.skinShown, "m", 3)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <p className="small">
        {hazards.note} <span className="quiet">{say.sources(hazards.sources.join(", "))}</span>
      </p>
      <div className="stack tight">
        <h3>{say.eyewear}</h3>
        <p>
          <strong className="marking">{eyewear.marking}</strong>{" "}
          <span className="quiet small">{say.eyewearAt(quantityText(EYEWEAR_DISTANCE, "m", 2))}</span>
        </p>
        <ul className="plain small">
          {eyewear.notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
        <p className="quiet small">{say.sources(eyewear.sources.join(", "))}</p>
      </div>
    </section>
  );
}
