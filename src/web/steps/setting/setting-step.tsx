import { Button, Switch } from "@mantine/core";
import { useCallback, useDeferredValue, useEffect, useMemo, useRef, useState } from "react";
import { completeSetting } from "#beam";
import type { Setting } from "#terms";
import { goTo, linkTo } from "../../app/route.ts";
import { useCautions } from "../../enquiry/cautions.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { useLibrary } from "../../library/use-library.ts";
import type { WorkingSetting } from "../../live/kept-choice.ts";
import { surveyKey } from "../../live/survey-key.ts";
import { useKeptAnswer } from "../../live/use-long-work.ts";
import { words } from "../../words/index.ts";
import { carriedTo } from "./controls.ts";
import { FilmView } from "./film-view.tsx";
import { useKeptWindow } from "../window/kept-window.ts";
import { marksOf } from "./map-marks.tsx";
import { MapPad } from "./map-pad.tsx";
import { Stand } from "./stand.tsx";
import { useBest } from "./use-best.ts";
import { useLive } from "./use-live.ts";
import { type Move, useStands } from "./use-stands.ts";
import "./setting.css";

const USUAL = "pulsed-100";

/** Move a control and read what the physics says, at the pace of the hand; alone, or two lasers beside each other. */
export function SettingStep({ enquiryId, place, doc, part, partId, partEnquiry, problem, trials }: StepProps) {
  const library = useLibrary();
  const survey = useKeptAnswer("survey", surveyKey(enquiryId, part, doc));
  // A laser that patches were burned with says more than any other.
  const tried = trials.map((t) => library.setups.find((s) => s.id === t.trial.setupId)).find((s) => s !== undefined);
  const usual = tried ?? library.setup(USUAL);
  // Before a person has chosen, the best of the comparison is the better place to start from.
  const first = (): WorkingSetting => {
    const found = survey?.verdicts.find((v) => v.best !== null);
    if (found?.best) return { setupId: found.setupId, setting: found.best.setting };
    return { setupId: usual.id, setting: completeSetting(usual, {}) };
  };
  const { stands, put, move, untouched } = useStands(library, enquiryId, partId, place, first);
  const setup = library.setups.find((s) => s.id === stands.first.setupId) ?? usual;
  const beside = library.setups.find((s) => s.id === stands.second?.setupId) ?? null;
  const ready = partEnquiry !== null && partEnquiry.mixture.length > 0;
  const partKey = useMemo(() => JSON.stringify(part), [part]);
  const live = useLive(ready, partKey, partId, setup.id, stands.first.setting);
  const liveBeside = useLive(
    ready && beside !== null,
    partKey,
    partId,
    beside?.id ?? setup.id,
    stands.second?.setting ?? stands.first.setting,
  );
  useCautions([
    ...new Set([...(live.answer?.cautions ?? []), ...(beside !== null ? (liveBeside.answer?.cautions ?? []) : [])]),
  ]);
  const [deep, setDeep] = useState<"first" | "second">("first");
  const shown = deep === "second" && beside !== null && stands.second !== null ? "second" : "first";
  const shownSetup = shown === "second" && beside !== null ? beside : setup;
  const shownSetting = (shown === "second" ? stands.second : stands.first)?.setting ?? stands.first.setting;
  // The pictures that follow once the hand rests never hold up the ones that follow the hand.
  const resting = useDeferredValue(shownSetting);

  const onFirst = useCallback<Move>((...moved) => move("first", ...moved), [move]);
  const onSecond = useCallback<Move>((...moved) => move("second", ...moved), [move]);

  const acceptance = partEnquiry?.acceptance ?? null;
  const fitted = useKeptWindow(enquiryId, part, acceptance, trials, shownSetup.id);
  const found = survey?.verdicts.find((v) => v.setupId === shownSetup.id)?.best?.setting ?? null;
  const marks = useMemo(() => {
    // What patches recommend stands above what was only predicted.
    const best = fitted?.window.recommended?.setting ?? found;
    return marksOf(trials, shownSetup.id, acceptance, best === null ? [] : [best]);
  }, [trials, shownSetup.id, acceptance, fitted, found]);

  // Nobody has chosen yet and nothing was compared: the best of this laser is a better place to begin than its middle.
  const { find } = useBest(partId, (of, best) => {
    if (untouched) onFirst(of, best, "best");
  });
  const begin = ready && untouched && survey === null;
  useEffect(() => {
    if (begin) find(setup);
  }, [begin, find]);

  const carried = useRef<Setting | null>(null);
  const { find: findSecond } = useBest(partId, (of, best) => {
    // A hand that moved it meanwhile knows better.
    if (stands.second?.setupId === of.id && stands.second.setting === carried.current) onSecond(of, best, "best");
  });
  const addSecond = () => {
    // The best of the other kind is what a person most often wants beside this one.
    const other = survey?.verdicts.find((v) => v.best !== null && v.kind !== setup.kind);
    const choice = other ? library.setup(other.setupId) : library.setups.find((s) => s.kind !== setup.kind);
    if (!choice) return;
    const found = other?.best?.setting;
    const setting = found ?? carriedTo(choice, stands.first.setting);
    carried.current = setting;
    put((now) => ({ ...now, second: { setupId: choice.id, setting } }), "beside");
    if (found === undefined) findSecond(choice);
  };

  const about = { library, ready, partKey, partId };
  return (
    <div className="stack">
      <header className="stack tight">
        <h1>{words.setting.title}</h1>
        <p className="lead">{words.setting.lead}</p>
      </header>
      {problem ? <p className="note bad">{problem}</p> : null}
      <div className="row middle">
        {beside === null ? (
          <Button variant="default" onClick={addSecond}>
            {words.live.beside}
          </Button>
        ) : (
          <>
            <Button variant="default" onClick={() => put((now) => ({ ...now, second: null }), "beside")}>
              {words.live.alone}
            </Button>
            <Switch
              label={words.live.linked}
              checked={stands.linked}
              onChange={(e) => {
                const linked = e.currentTarget.checked;
                put((now) => ({ ...now, linked }), "linked");
              }}
            />
          </>
        )}
        <Button variant="default" onClick={() => onFirst(setup, completeSetting(setup, {}), "reset")}>
          {words.setting.reset}
        </Button>
        <Button onClick={() => goTo(linkTo({ enquiryId, step: "trial", query: { part: partId, laser: setup.id } }))}>
          {words.setting.planFrom}
        </Button>
      </div>
      <div className={beside === null ? "stands" : "stands two"}>
        <Stand
          id="first"
          title={setup.name}
          {...about}
          setup={setup}
          setting={stands.first.setting}
          live={live}
          other={beside === null ? null : liveBeside}
          onChange={onFirst}
        />
        {beside !== null && stands.second !== null ? (
          <Stand
            id="second"
            title={beside.name}
            {...about}
            setup={beside}
            setting={stands.second.setting}
            live={liveBeside}
            other={live}
            onChange={onSecond}
          />
        ) : null}
      </div>
      {beside !== null ? (
        <div className="row middle">
          <span className="small quiet">{words.live.deepOf}</span>
          {(["first", "second"] as const).map((which) => (
            <Button
              key={which}
              size="compact-md"
              variant={shown === which ? "filled" : "default"}
              aria-pressed={shown === which}
              onClick={() => setDeep(which)}
            >
              {which === "first" ? setup.name : beside.name}
            </Button>
          ))}
        </div>
      ) : null}
      <MapPad
        id={`map-${shown}`}
        ready={ready}
        partKey={partKey}
        partId={partId}
        setup={shownSetup}
        setting={shownSetting}
        marks={marks}
        onChange={shown === "second" ? onSecond : onFirst}
      />
      <FilmView ready={ready} partKey={partKey} partId={partId} setup={shownSetup} setting={resting} />
      {live.answer ? (
        <section className="sheet stack tight">
          <h2>{words.setting.caveats}</h2>
          <ul>
            {live.answer.prediction.caveats.map((c) => (
              <li key={c}>{c}</li>
            ))}
          </ul>
          <p className="small quiet">{words.setting.model(live.answer.prediction.modelVersion)}</p>
        </section>
      ) : null}
    </div>
  );
}
