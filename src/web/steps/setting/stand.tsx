import { memo, useDeferredValue } from "react";
import type { Library } from "#library";
import type { LaserSetup, Setting } from "#terms";
import { axisValue } from "#workflows";
import { pictureWorker } from "../../live/worker-client.ts";
import { useUnitSystem } from "../../show/unit-system.ts";
import { words } from "../../words/index.ts";
import { EdgeBar } from "./edge-bar.tsx";
import { BeamFigures, ResultFigures } from "./figures.tsx";
import { PatchCanvas } from "./patch-canvas.tsx";
import { RasterPicture } from "./raster-picture.tsx";
import { StandControls } from "./stand-controls.tsx";
import type { Live } from "./use-live.ts";
import { useRested } from "./use-rest.ts";
import type { Move } from "./use-stands.ts";

interface Props {
  readonly id: string;
  readonly title: string;
  readonly library: Library;
  readonly ready: boolean;
  readonly partKey: string;
  readonly partId: string;
  readonly setup: LaserSetup;
  readonly setting: Setting;
  readonly live: Live;
  /** the other laser's answer, for differences */
  readonly other: Live | null;
  readonly onChange: Move;
}

/** Cells along a side of the patch picture that follows the hand. */
const PICTURE_CELLS = 60;
const EDGE_DRAWS = 16;
const EDGE_REST_MS = 60;

/** One laser with its controls and all that the physics says of its setting. */
export const Stand = memo(function Stand({
  id,
  title,
  library,
  ready,
  partKey,
  partId,
  setup,
  setting,
  live,
  other,
  onChange,
}: Props) {
  useUnitSystem();
  const edges = useRested(
    "edges",
    { partId, setupId: setup.id, setting, drawCount: EDGE_DRAWS },
    ready ? JSON.stringify([partKey, setup.id, setting]) : null,
    setup.id,
    EDGE_REST_MS,
  );
  const { answer } = live;
  // The numbers that are dragged for come first, what else there is to see a moment later.
  const given = useDeferredValue(answer);
  const later = given !== null && given.prediction.setupId === setup.id ? given : answer;
  // Asked once its numbers are there: they come first.
  const seen = answer?.rounded ?? null;
  const picture = useRested(
    "picture",
    seen && { partId, setupId: setup.id, setting: seen, cells: PICTURE_CELLS },
    ready && seen ? JSON.stringify([partKey, setup.id, seen]) : null,
    setup.id,
    0,
    pictureWorker,
  );
  const bar = edges.answer?.axis === (setup.kind === "pulsed" ? "fluence" : "dose") ? edges.answer : null;
  return (
    <section className="stand" aria-label={title} data-asked={live.asked} data-answered={live.answered}>
      <div className="sheet stack tight stand-controls">
        <StandControls
          id={id}
          partId={ready ? partId : null}
          library={library}
          setup={setup}
          setting={setting}
          onChange={onChange}
        />
      </div>
      <div className="stack tight">
        <p className="small quiet" aria-live="polite">
          {words.setting.predicted} {stateWords(live)}
        </p>
        {live.line ? <p className="note bad">{live.line}</p> : null}
      </div>
      <div className="stand-pair">
        {answer ? <ResultFigures answer={answer} other={other?.answer ?? null} /> : null}
        <div className="sheet">
          <PatchCanvas picture={picture.answer} />
        </div>
      </div>
      <div>{later ? <EdgeBar id={id} setup={setup} bar={bar} now={axisValue(setup, later.rounded)} /> : null}</div>
      <div className="stand-pair">
        {later ? (
          <>
            <BeamFigures answer={later} />
            <RasterPicture beam={later.prediction.beam} setting={later.rounded} />
          </>
        ) : null}
      </div>
    </section>
  );
});

function stateWords(live: Live): string {
  if (live.state === "computing") return words.setting.answering;
  if (live.state === "first") return words.setting.sharpening;
  return live.state === "done" ? words.setting.answered(live.draws) : "";
}
