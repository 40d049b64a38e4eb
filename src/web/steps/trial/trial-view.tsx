import { Anchor, Button } from "@mantine/core";
import { couponSvg, type OutcomeState, outcomeState, pageTheme, printTheme } from "#drawing";
import { settingLine, waitText } from "#report";
import type { Acceptance, Outcome, Trial } from "#terms";
import { runSheetUrl } from "../../api/answers.ts";
import { BenchLink } from "../../bench/bench-link.tsx";
import { useLibrary } from "../../library/use-library.ts";
import { FrameSheets } from "../../photographs/frame-sheets.tsx";
import { saveText } from "../../show/save-file.ts";
import { seenPatches } from "../../show/seen-patches.ts";
import { SvgPicture } from "../../show/svg-picture.tsx";
import { words } from "../../words/index.ts";

interface Props {
  readonly trial: Trial;
  readonly outcomes: readonly Outcome[];
  readonly acceptance: Acceptance | null;
  readonly cautions: readonly string[];
  /** a trial that the server keeps can be printed by it */
  readonly stored: boolean;
}

/** Coupons to scale, why these patches, and the run order with its settings and cautions. */
export function TrialView({ trial, outcomes, acceptance, cautions, stored }: Props) {
  const library = useLibrary();
  const states: Record<number, OutcomeState> = acceptance
    ? Object.fromEntries(seenPatches(outcomes).map((o) => [o.patch, outcomeState(o, acceptance)]))
    : {};
  const csv = async () => {
    const { runSheetCsv } = await import("#contract");
    saveText(`${trial.id}.run-sheet.csv`, runSheetCsv(trial, library.setup(trial.setupId)), "text/csv");
  };
  const runs = trial.patches.filter((p) => p.setting !== null).toSorted((a, b) => a.runOrder - b.runOrder);
  const waits = runs.some((p) => (p.wait ?? 0) > 0);
  const { spacing } = trial;
  return (
    <div className="stack">
      <div className="split">
        {trial.coupons.map((coupon) => (
          <figure key={coupon.coupon} className="sheet stack tight">
            <SvgPicture
              svg={couponSvg(trial, coupon, {
                trueSize: false,
                theme: pageTheme,
                id: `${trial.id}-${coupon.coupon}`,
                outcomes: states,
                cautions: [],
              })}
              label={words.trial.couponOf(coupon.label)}
              size="full"
            />
            <figcaption className="row">
              <Button
                variant="default"
                size="compact-sm"
                onClick={() =>
                  saveText(
                    `${trial.id}.coupon-${coupon.coupon}.svg`,
                    couponSvg(trial, coupon, {
                      trueSize: true,
                      theme: printTheme,
                      id: `${trial.id}-${coupon.coupon}`,
                      cautions,
                    }),
                    "image/svg+xml",
                  )
                }
              >
                {words.trial.svg}
              </Button>
              {stored ? (
                <Anchor href={`/api/trials/${encodeURIComponent(trial.id)}/coupons/${coupon.coupon}.pdf`} download>
                  {words.trial.pdf}
                </Anchor>
              ) : null}
            </figcaption>
          </figure>
        ))}
      </div>
      {stored ? <BenchLink trial={trial} /> : null}
      <FrameSheets trial={trial} stored={stored} />
      <section className="sheet stack tight">
        <h3>{words.trial.why}</h3>
        <ul>
          {trial.reasons.map((r) => (
            <li key={r}>{r}</li>
          ))}
          {spacing && !trial.reasons.includes(spacing.words) ? <li>{spacing.words}</li> : null}
        </ul>
        <div className="row">
          <Button variant="default" size="compact-sm" onClick={csv}>
            {words.trial.csv}
          </Button>
          {stored ? (
            <>
              <Anchor href={runSheetUrl(trial.id, "pdf", "en")} download>
                {words.trial.sheetPdf}
              </Anchor>
              <Anchor href={runSheetUrl(trial.id, "html", "en")} target="_blank" rel="noopener">
                {words.trial.sheetPage}
              </Anchor>
            </>
          ) : null}
        </div>
      </section>
      <details className="sheet">
        <summary>{`${words.trial.runs}: ${runs.length}`}</summary>
        <div className="table">
          <table className="grid">
            <thead>
              <tr>
                <th scope="col">{words.trial.run}</th>
                <th scope="col">{words.trial.patch}</th>
                {waits ? <th scope="col">{words.trial.wait}</th> : null}
                <th scope="col">{words.trial.role}</th>
                <th scope="col">{words.setting.title}</th>
              </tr>
            </thead>
            <tbody>
              {runs.map((p) => (
                <tr key={p.patch}>
                  <td>{p.runOrder}</td>
                  <td>{p.patch}</td>
                  {waits ? <td className="num">{waitText(p.wait)}</td> : null}
                  <td>{words.roles[p.role]}</td>
                  <td>{p.setting ? settingLine(p.setting) : ""}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </details>
    </div>
  );
}
