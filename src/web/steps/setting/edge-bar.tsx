import { barSentence, pageTheme, twoEdgeBarSvg } from "#drawing";
import type { LaserSetup, TwoEdgeBar } from "#terms";
import { SvgPicture } from "../../show/svg-picture.tsx";
import { words } from "../../words/index.ts";

interface Props {
  readonly id: string;
  readonly setup: LaserSetup;
  /** edges at the last setting that rested; null before the first */
  readonly bar: TwoEdgeBar | null;
  /** J/m², where the setting stands on the axis now */
  readonly now: number | null;
}

/** Where the layer starts to come off, where the metal starts to change, and where this setting stands between them. */
export function EdgeBar({ id, setup, bar, now }: Props) {
  if (bar === null || now === null) return <p className="small quiet">{words.live.edgesWorking}</p>;
  const shown = { ...bar, best: now };
  return (
    <figure className="sheet stack tight edge-bar">
      <h2>{words.live.edgesTitle}</h2>
      <SvgPicture
        svg={twoEdgeBarSvg([{ label: "", kind: setup.kind, bar: shown, note: "" }], {
          theme: pageTheme,
          id: `edge-bar-${id}`,
          legend: false,
        })}
        label={`${setup.name}: ${barSentence(shown)}`}
        size="full"
        trim
      />
      <figcaption className="small quiet">{words.live.edgeKey}</figcaption>
    </figure>
  );
}
