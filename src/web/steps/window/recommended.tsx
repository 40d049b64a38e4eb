import { stopHeadlines } from "#report";
import type { TrialStop, WindowResult } from "#terms";
import { Figure } from "../../show/figure.tsx";
import { SettingText } from "../../show/setting-text.tsx";
import { words } from "../../words/index.ts";

/** The verdict of the stopping rule, with what it rests on. */
export function TrialStopLine({ stop }: { readonly stop: TrialStop }) {
  return (
    <section className="sheet stack tight">
      <div className="row middle">
        <h2>{words.window.stop}</h2>
        <span className={`tag ${stop.verdict === "recommend" ? "good" : "warn"}`}>
          {words.window.stopTags[stop.verdict]}
        </span>
      </div>
      <p>{stopHeadlines[stop.verdict]}</p>
      <ul>
        {stop.words.map((w) => (
          <li key={w}>{w}</li>
        ))}
      </ul>
    </section>
  );
}

/** The setting, how sure, how far to the edges, on what footing; or that none was found. */
export function Recommended({ window }: { readonly window: WindowResult }) {
  const { recommended, stop } = window;
  // what the stopping rule says stands above
  const said = window.words.filter((w) => !stop.words.includes(w));
  if (!recommended)
    return (
      <section className="note warn">
        {said.map((w) => (
          <p key={w}>{w}</p>
        ))}
      </section>
    );
  const { margin } = recommended;
  return (
    <section className="sheet stack tight">
      <div className="row middle">
        <h2>{words.window.recommended}</h2>
        <span className={`tag ${recommended.proven ? "good" : "warn"}`}>
          {recommended.proven ? words.window.proven : words.window.notProven}
        </span>
      </div>
      <SettingText setting={recommended.setting} />
      <dl className="figures">
        <Figure
          name={words.setting.both}
          value={Math.min(recommended.probabilityBoth, 0.95)}
          unit="%"
          digits={2}
          low={Math.min(recommended.probabilityBothLow, 0.95)}
          high={Math.min(recommended.probabilityBothHigh, 0.95)}
        />
        <Figure name={words.setting.rate} value={recommended.areaRate} unit="m2/h" digits={2} />
        <Figure
          name={words.window.margin}
          value={margin.powerPercent === null ? null : margin.powerPercent / 100}
          unit="%"
          digits={2}
          note={
            margin.nearestEdge === null
              ? words.window.marginNone
              : words.window.marginEdge(words.window.edges[margin.nearestEdge])
          }
        />
      </dl>
      <ul>
        {said.map((w) => (
          <li key={w}>{w}</li>
        ))}
      </ul>
    </section>
  );
}
