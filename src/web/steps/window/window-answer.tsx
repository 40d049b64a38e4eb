import { outcomeState, pageTheme, windowMapSvg } from "#drawing";
import { driftSentence } from "#report";
import { productionDrift } from "#window";
import type { Acceptance, Outcome, WindowResult } from "#terms";
import type { WindowAnswer } from "../../live/protocol.ts";
import { SvgPicture } from "../../show/svg-picture.tsx";
import { seenPatches } from "../../show/seen-patches.ts";
import { words } from "../../words/index.ts";
import { FitChecks } from "./fit-checks.tsx";
import { NextPatches } from "./next-patches.tsx";
import { PinnedNumbers } from "./pinned-numbers.tsx";
import { Recommended, TrialStopLine } from "./recommended.tsx";

interface Props {
  readonly answer: WindowAnswer;
  readonly outcomes: readonly Outcome[];
  readonly acceptance: Acceptance;
}

/** Whether the trial may end, the recommended setting, the map, what was pinned down, how far to trust it, what next. */
export function WindowAnswerView({ answer, outcomes, acceptance }: Props) {
  const { window, versions } = answer;
  return (
    <>
      <TrialStopLine stop={window.stop} />
      <Recommended window={window} />
      <WindowMapFigure window={window} outcomes={outcomes} acceptance={acceptance} />
      <PinnedNumbers window={window} />
      <NextPatches next={window.next} />
      <FitChecks window={window} versions={versions} />
    </>
  );
}

function WindowMapFigure({ window, outcomes, acceptance }: Omit<Props, "answer"> & { readonly window: WindowResult }) {
  const { map } = window;
  if (!map) return null;
  const seenAll = seenPatches(outcomes);
  const marks = (map.points ?? []).map((p) => {
    const seen = seenAll.find((o) => o.patch === p.patch);
    return { ...p, state: seen ? outcomeState(seen, acceptance) : ("unknown" as const) };
  });
  return (
    <figure className="sheet stack tight">
      <SvgPicture
        svg={windowMapSvg(map, marks, map.recommendedAt ?? null, { theme: pageTheme, id: "window-map" })}
        label={words.window.mapOf}
        size="full"
      />
      <figcaption className="small quiet">{driftSentence(productionDrift)}</figcaption>
    </figure>
  );
}
