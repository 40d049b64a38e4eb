import { memo, useEffect, useRef } from "react";
import type { BeamState, Setting } from "#terms";
import { quantityText } from "../../show/quantity-text.ts";
import { useUnitSystem } from "../../show/unit-system.ts";
import { words } from "../../words/index.ts";

const SIDE = 320;
/** Spot diameters along a side of the picture. */
const SPOTS = 3.2;
const MOST_LINES = 40;
const MOST_PULSES = 60;

/** Where the pulses (or lines) land, to scale: a look at overlap before any number. */
export const RasterPicture = memo(function RasterPicture({
  beam,
  setting,
}: {
  readonly beam: BeamState;
  readonly setting: Setting;
}) {
  useUnitSystem();
  const canvas = useRef<HTMLCanvasElement>(null);
  const { spotDiameter, pulsePitch } = beam;
  const { lineSpacing } = setting;
  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (context) paintRaster(context, spotDiameter, pulsePitch, lineSpacing);
  }, [spotDiameter, pulsePitch, lineSpacing]);
  const title = pulsePitch === null ? words.setting.overlapLines : words.setting.overlapPicture;
  const label = `${title}: ${words.live.spot} ${quantityText(spotDiameter, "um", 3)}, ${words.setting.lineSpacing} ${quantityText(lineSpacing, "um", 3)}`;
  return (
    <figure className="sheet stack tight">
      <h2>{title}</h2>
      <canvas ref={canvas} className="raster" width={2 * SIDE} height={2 * SIDE} role="img" aria-label={label} />
      <figcaption className="small quiet">{label}</figcaption>
    </figure>
  );
});

/** As many discs lie over each other as the setting says: each is so faint that the pattern stays readable. */
function paintRaster(context: CanvasRenderingContext2D, d: number, pitch: number | null, spacing: number): void {
  const { width } = context.canvas;
  const extent = SPOTS * d;
  const scale = width / extent;
  const step = pitch === null ? null : Math.max(pitch, extent / MOST_PULSES);
  const over = Math.max(1, (d / spacing) * (step === null ? 1 : d / step));
  context.clearRect(0, 0, width, width);
  const ink = getComputedStyle(context.canvas).color;
  context.fillStyle = ink;
  context.strokeStyle = ink;
  context.lineWidth = 1;
  const lines = Math.min(MOST_LINES, Math.ceil(extent / spacing) + 1);
  for (let line = 0; line < lines; line++) {
    const y = (line + 0.5) * spacing * scale;
    if (y > width + (d * scale) / 2) break;
    context.globalAlpha = Math.min(0.16, Math.max(0.012, 0.6 / over));
    if (step === null || pitch === null) {
      context.fillRect(0, y - (d * scale) / 2, width, d * scale);
      continue;
    }
    const phase = ((line * 0.618) % 1) * pitch;
    const count = Math.min(MOST_PULSES, Math.ceil(extent / step)) + 2;
    for (let i = -1; i < count; i++) {
      context.beginPath();
      context.arc((i * step + phase) * scale, y, (d * scale) / 2, 0, 2 * Math.PI);
      context.fill();
      if (over < 30) {
        context.save();
        context.globalAlpha = Math.min(0.5, 4 / over);
        context.stroke();
        context.restore();
      }
    }
  }
}
