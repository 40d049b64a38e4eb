import { Button, NativeSelect, Switch } from "@mantine/core";
import { useState } from "react";
import { completeSetting } from "#beam";
import { setup as setupById, setups } from "#library";
import type { Setting } from "#terms";
import { quantityText } from "../../show/quantity-text.ts";
import { goTo, linkTo } from "../../app/route.ts";
import { useCautions } from "../../enquiry/cautions.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { useWorkingSetting, type WorkingSetting } from "../../live/kept-choice.ts";
import { surveyKey } from "../../live/survey-key.ts";
import { useKeptAnswer } from "../../live/use-long-work.ts";
import { SettingText } from "../../show/setting-text.tsx";
import { words } from "../../words/index.ts";
import { ControlSlider } from "./control-slider.tsx";
import { carriedTo, controlsOf, cutIn } from "./controls.ts";
import { BeamFigures, ResultFigures } from "./figures.tsx";
import { RasterPicture } from "./raster-picture.tsx";
import { type Live, usePrediction } from "./use-prediction.ts";

/** Move a control and read what the physics says, at the pace of the hand. */
export function SettingStep({ enquiryId, doc, part, partId, partEnquiry, problem }: StepProps) {
  const survey = useKeptAnswer("survey", surveyKey(enquiryId, part, doc));
  // Before a person has chosen, the best of the comparison is the better place to start from.
  const first = (): WorkingSetting => {
    const found = survey?.verdicts.find((v) => v.best !== null);
    if (found?.best) return { setupId: found.setupId, setting: found.best.setting };
    return { setupId: "pulsed-100", setting: completeSetting(setupById("pulsed-100"), {}) };
  };
  const [working, setWorking] = useWorkingSetting(enquiryId, partId, first);
  const [pinned, setPinned] = useState<{ working: WorkingSetting; live: Live } | null>(null);
  const setup = setups.find((s) => s.id === working.setupId) ?? setupById("pulsed-100");
  const { setting } = working;
  const live = usePrediction(
    partEnquiry !== null && partEnquiry.mixture.length > 0,
    JSON.stringify(part),
    partId,
    setup.id,
    setting,
  );
  useCautions(live.answer?.cautions);
  const change = (next: Setting) => setWorking({ setupId: setup.id, setting: next });
  const cut = cutIn(setup, setting);
  return (
    <div className="stack">
      <header className="stack tight">
        <h1>{words.setting.title}</h1>
        <p className="lead">{words.setting.lead}</p>
      </header>
      {problem ? <p className="note bad">{problem}</p> : null}
      <div className="split">
        <section className="sheet stack" aria-label={words.setting.title}>
          <div className="row">
            <NativeSelect
              label={words.setting.setup}
              value={setup.id}
              onChange={(e) => {
                const next = setupById(e.currentTarget.value);
                setWorking({ setupId: next.id, setting: carriedTo(next, setting) });
              }}
              data={setups.map((s) => ({ value: s.id, label: s.name }))}
            />
            <NativeSelect
              label={words.setting.lens}
              value={setting.lens}
              onChange={(e) => change({ ...setting, lens: e.currentTarget.value })}
              data={setup.lenses.map((l) => ({
                value: l.id,
                label: `${quantityText(l.focalLength, "mm", 3)}, spot ${quantityText(l.spotDiameter, "um", 3)}`,
              }))}
            />
            {setup.kind === "pulsed" ? (
              <NativeSelect
                label={words.setting.pulseWidth}
                value={String(setting.pulseWidth)}
                onChange={(e) =>
                  change({
                    ...completeSetting(setup, { ...setting, pulseWidth: Number(e.currentTarget.value) }),
                    frequency: setting.frequency,
                  })
                }
                data={setup.pulses.map((p) => ({ value: String(p.width), label: quantityText(p.width, "ns", 3) }))}
              />
            ) : null}
          </div>
          {setup.modulation ? (
            <Switch
              label={words.setting.modulated}
              checked={setting.frequency !== null}
              onChange={(e) =>
                change(
                  e.currentTarget.checked
                    ? completeSetting(setup, { ...setting, frequency: null as never, duty: 0.5 })
                    : { ...setting, frequency: null, duty: 1 },
                )
              }
            />
          ) : null}
          {controlsOf(setup, setting).map((control) => (
            <ControlSlider key={control.key} control={control} setting={setting} onChange={change} />
          ))}
          {cut !== null ? <p className="small quiet">{words.setting.cutIn(quantityText(cut, "kHz", 3))}</p> : null}
          <div className="row">
            <Button variant="default" size="compact-md" onClick={() => change(completeSetting(setup, {}))}>
              {words.setting.reset}
            </Button>
            <Button
              variant="default"
              size="compact-md"
              onClick={() => setPinned(pinned ? null : { working, live })}
              disabled={!pinned && !live.answer}
            >
              {pinned ? words.setting.unpin : words.setting.pin}
            </Button>
            <Button
              size="compact-md"
              onClick={() => goTo(linkTo({ enquiryId, step: "trial", query: { part: partId, laser: setup.id } }))}
            >
              {words.setting.planFrom}
            </Button>
          </div>
        </section>
        <section className="stack" aria-live="polite">
          <p className="small quiet">
            {words.setting.predicted} {stateWords(live)}
          </p>
          {live.line ? <p className="note bad">{live.line}</p> : null}
          {live.answer ? <ResultFigures answer={live.answer} pinned={pinned?.live.answer ?? null} /> : null}
          {live.answer ? <RasterPicture beam={live.answer.prediction.beam} setting={live.answer.rounded} /> : null}
        </section>
      </div>
      {pinned ? (
        <section className="sheet stack tight">
          <h2>{words.setting.pinned}</h2>
          <p className="small quiet">{setupById(pinned.working.setupId).name}</p>
          <SettingText setting={pinned.working.setting} />
        </section>
      ) : null}
      {live.answer ? (
        <>
          <BeamFigures answer={live.answer} />
          <section className="sheet stack tight">
            <h2>{words.setting.caveats}</h2>
            <ul>
              {live.answer.prediction.caveats.map((c) => (
                <li key={c}>{c}</li>
              ))}
            </ul>
            <p className="small quiet">{words.setting.model(live.answer.prediction.modelVersion)}</p>
          </section>
        </>
      ) : null}
    </div>
  );
}

function stateWords(live: Live): string {
  if (live.state === "computing") return words.setting.answering;
  if (live.state === "first") return words.setting.sharpening;
  return live.state === "done" ? words.setting.answered(live.draws) : "";
}
