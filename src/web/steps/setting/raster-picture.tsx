import type { BeamState, Setting } from "#terms";
import { quantityText } from "../../show/quantity-text.ts";
import { words } from "../../words/index.ts";

const SIDE = 320;

/** Where the pulses (or lines) land, to scale: a look at overlap before any number. */
export function RasterPicture({ beam, setting }: { readonly beam: BeamState; readonly setting: Setting }) {
  const d = beam.spotDiameter;
  const extent = 3.2 * d;
  const scale = SIDE / extent;
  const lines = Math.min(40, Math.ceil(extent / setting.lineSpacing) + 1);
  const pitch = beam.pulsePitch;
  // As many discs lie over each other as the drawing holds: each is so faint that the pattern stays readable.
  const drawn = pitch === null ? null : Math.max(pitch, extent / 60);
  const over = (d / setting.lineSpacing) * (drawn === null ? 1 : d / drawn);
  const ink = Math.min(0.14, Math.max(0.012, 0.5 / Math.max(1, over)));
  const label = `${words.setting.overlapPicture}: ${words.setting.spot} ${quantityText(d, "um", 3)}, ${words.setting.lineSpacing} ${quantityText(setting.lineSpacing, "um", 3)}`;
  const marks = [];
  for (let line = 0; line < lines; line++) {
    const y = (line + 0.5) * setting.lineSpacing * scale;
    if (y > SIDE + (d * scale) / 2) break;
    if (pitch === null) {
      marks.push(
        <rect
          key={line}
          x={0}
          y={y - (d * scale) / 2}
          width={SIDE}
          height={d * scale}
          fill="currentColor"
          opacity={ink}
        />,
      );
      continue;
    }
    const phase = ((line * 0.618) % 1) * pitch;
    const count = Math.min(60, Math.ceil(extent / pitch) + 2);
    const step = drawn ?? pitch;
    for (let i = -1; i < count; i++)
      marks.push(
        <circle
          key={`${line} ${i}`}
          cx={(i * step + phase) * scale}
          cy={y}
          r={(d * scale) / 2}
          fill="currentColor"
          opacity={ink}
          stroke="currentColor"
          strokeOpacity={Math.min(1, 0.35 / (over * ink + 0.01) / 4)}
        />,
      );
  }
  return (
    <figure className="sheet stack tight">
      <h2>{words.setting.overlapPicture}</h2>
      <svg viewBox={`0 0 ${SIDE} ${SIDE}`} width="100%" style={{ maxWidth: SIDE }} role="img" aria-label={label}>
        <title>{label}</title>
        {marks}
      </svg>
      <figcaption className="small quiet">{label}</figcaption>
    </figure>
  );
}
