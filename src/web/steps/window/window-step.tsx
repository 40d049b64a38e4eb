import { Button, NativeSelect, SegmentedControl } from "@mantine/core";
import { useState } from "react";
import { outcomeState, pageTheme, windowMapSvg } from "#drawing";
import { settingLine } from "#report";
import type { WindowResult } from "#terms";
import { formatNumber, formatQuantity } from "#units";
import { goTo, linkTo } from "../../app/route.ts";
import { useCautions } from "../../enquiry/cautions.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { useLongWork } from "../../live/use-long-work.ts";
import { Figure, FigureText } from "../../show/figure.tsx";
import { LongWorkBar } from "../../show/long-work.tsx";
import { SettingText } from "../../show/setting-text.tsx";
import { SvgPicture } from "../../show/svg-picture.tsx";
import { words } from "../../words/index.ts";
import { cautionsOfPart } from "../trial/part-cautions.ts";

const drawCount = 32;

/** Outcomes and physics joined: map, recommended setting, margin, what to burn next. */
export function WindowStep({ enquiryId, place, part, partId, partEnquiry, trials }: StepProps) {
  const graded = trials.filter((t) => t.outcomes.some((o) => o.residueFraction !== null || o.metalCondition !== null));
  const [chosen, setChosen] = useState(place.query.trial ?? "");
  const usual = Math.round(100 * (partEnquiry?.acceptance.confidence ?? 0.8));
  const [sure, setSure] = useState<number | null>(null);
  const percent = sure ?? usual;
  const record = graded.find((t) => t.trial.id === chosen) ?? graded[0];
  const work = useLongWork("window", JSON.stringify([enquiryId, part, record?.trial.id, record?.outcomes, percent]));
  useCautions(partEnquiry && record ? cautionsOfPart(partEnquiry, record.trial.setupId) : []);
  if (!record)
    return (
      <div className="stack">
        <h1>{words.window.title}</h1>
        <section className="empty">
          <h2>{words.window.emptyTitle}</h2>
          <p className="quiet">{words.window.empty}</p>
          <Button onClick={() => goTo(linkTo({ enquiryId, step: "results", query: { part: partId } }))}>
            {words.window.toResults}
          </Button>
        </section>
      </div>
    );
  const start = () =>
    work.start({ partId, trial: record.trial, outcomes: record.outcomes, confidence: percent / 100, drawCount });
  const { answer } = work;
  return (
    <div className="stack">
      <header className="stack tight">
        <h1>{words.window.title}</h1>
        <p className="lead">{words.window.lead}</p>
      </header>
      <div className="row middle">
        <NativeSelect
          label={words.trial.choose}
          value={record.trial.id}
          onChange={(e) => setChosen(e.currentTarget.value)}
          data={graded.map((t) => t.trial.id)}
        />
        <div className="stack tight">
          <span className="small">{words.window.sure}</span>
          <SegmentedControl
            aria-label={words.window.sure}
            value={String(percent)}
            onChange={(v) => setSure(Number(v))}
            data={[...new Set([70, 80, 90, 95, usual])]
              .sort((a, b) => a - b)
              .map((v) => ({ value: String(v), label: `${v} %` }))}
          />
        </div>
        <Button style={{ alignSelf: "end" }} onClick={start} disabled={!partEnquiry || work.state === "working"}>
          {answer ? words.window.again : words.window.fit}
        </Button>
      </div>
      {work.state === "working" ? (
        <LongWorkBar label={words.window.working} share={work.share} onCancel={work.cancel} />
      ) : null}
      {work.line ? (
        <p className="note bad" role="alert">
          {work.line}
        </p>
      ) : null}
      {answer ? (
        <>
          <Recommended window={answer} />
          {answer.map && partEnquiry ? (
            <figure className="sheet">
              <SvgPicture
                svg={windowMapSvg(
                  answer.map,
                  (answer.map.points ?? []).map((p) => {
                    const seen = record.outcomes.find((o) => o.patch === p.patch);
                    return { ...p, state: seen ? outcomeState(seen, partEnquiry.acceptance) : "unknown" };
                  }),
                  answer.map.recommendedAt ?? null,
                  { theme: pageTheme, id: "window-map" },
                )}
                label={words.window.mapOf}
                size="full"
              />
            </figure>
          ) : null}
          <Next window={answer} />
          <section className="sheet stack tight">
            <h2>{words.window.fitQuality}</h2>
            <dl className="figures">
              <FigureText name={words.window.patches}>{answer.diagnostics.patches}</FigureText>
              <FigureText name={words.window.cleanCount}>{answer.diagnostics.clean}</FigureText>
              <FigureText name={words.window.damagedCount}>{answer.diagnostics.damaged}</FigureText>
              <FigureText
                name={words.window.brier}
              >{`${formatNumber(answer.diagnostics.brierClean, 2)} / ${formatNumber(answer.diagnostics.brierUndamaged, 2)}`}</FigureText>
              <FigureText name={words.window.rHat}>{formatNumber(answer.diagnostics.rHat, 4)}</FigureText>
              <FigureText name={words.window.ess}>{formatNumber(answer.diagnostics.effectiveSampleSize, 3)}</FigureText>
            </dl>
            <p className="small quiet">{answer.diagnostics.priorMatters}</p>
            <ul className="small">
              {answer.caveats.map((c) => (
                <li key={c}>{c}</li>
              ))}
            </ul>
          </section>
          <div className="row">
            <Button onClick={() => goTo(linkTo({ enquiryId, step: "report", query: { part: partId } }))}>
              {words.window.toReport}
            </Button>
          </div>
        </>
      ) : null}
    </div>
  );
}

function Recommended({ window }: { readonly window: WindowResult }) {
  const r = window.recommended;
  if (!r)
    return (
      <section className="note warn">
        {window.words.map((w) => (
          <p key={w}>{w}</p>
        ))}
      </section>
    );
  const { margin } = r;
  return (
    <section className="sheet stack tight">
      <div className="row middle">
        <h2>{words.window.recommended}</h2>
        <span className={`tag ${r.proven ? "good" : "warn"}`}>
          {r.proven ? words.window.proven : words.window.notProven}
        </span>
      </div>
      <SettingText setting={r.setting} />
      <dl className="figures">
        <Figure
          name={words.setting.both}
          value={Math.min(r.probabilityBoth, 0.95)}
          unit="%"
          digits={2}
          low={r.probabilityBothLow}
          high={Math.min(r.probabilityBothHigh, 0.95)}
        />
        <Figure name={words.setting.rate} value={r.areaRate} unit="m2/h" digits={2} />
        <FigureText name={words.window.margin}>
          {margin.powerPercent === null || margin.nearestEdge === null
            ? words.window.marginNone
            : words.window.marginPower(
                formatQuantity(margin.powerPercent / 100, "%", 2),
                words.window.edges[margin.nearestEdge],
              )}
        </FigureText>
      </dl>
      <p>{r.repeats > 0 ? words.window.repeats(r.repeatsGood, r.repeats) : words.window.notBurned}</p>
      <ul>
        {window.words.map((w) => (
          <li key={w}>{w}</li>
        ))}
      </ul>
    </section>
  );
}

function Next({ window }: { readonly window: WindowResult }) {
  return (
    <section className="sheet stack tight">
      <h2>{words.window.next}</h2>
      {window.next.length === 0 ? <p className="quiet">{words.window.nextNone}</p> : null}
      <ol>
        {window.next.map((n) => (
          <li key={settingLine(n.setting)}>
            {settingLine(n.setting)}
            <span className="quiet"> — {n.reason}</span>
          </li>
        ))}
      </ol>
    </section>
  );
}
