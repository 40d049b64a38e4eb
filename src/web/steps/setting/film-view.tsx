import { Button, SegmentedControl, Slider } from "@mantine/core";
import { memo, useEffect, useMemo, useRef, useState } from "react";
import { mapColour, timeText } from "#drawing";
import type { LaserSetup, Setting } from "#terms";
import type { FilmOn, PulseFilm } from "#workflows";
import { Figure } from "../../show/figure.tsx";
import { quantityText } from "../../show/quantity-text.ts";
import { useUnitSystem } from "../../show/unit-system.ts";
import { words } from "../../words/index.ts";
import { filmScale, frameFigures, paintFrame, rowsToCells } from "./film-paint.ts";
import { useRested } from "./use-rest.ts";

interface Props {
  readonly ready: boolean;
  readonly partKey: string;
  readonly partId: string;
  readonly setup: LaserSetup;
  readonly setting: Setting;
}

const REST_MS = 300;
const ROWS = 300;
const FRAME_MS = 90;

/** One event through the stack, as a film: depth to scale, heat as colour, time under the hand. */
export const FilmView = memo(function FilmView({ ready, partKey, partId, setup, setting }: Props) {
  const [on, setOn] = useState<FilmOn>("stack");
  const key = ready ? JSON.stringify([partKey, setup.id, setting, on]) : null;
  const rested = useRested("film", { partId, setupId: setup.id, setting, on }, key, setup.id, REST_MS);
  const film = rested.answer;
  return (
    <section className="sheet stack tight">
      <div className="row apart middle">
        <h2>{setup.kind === "pulsed" ? words.live.film : words.live.filmPass}</h2>
        <SegmentedControl
          aria-label={words.live.filmOn}
          value={on}
          onChange={(value) => setOn(value as FilmOn)}
          data={[
            { value: "stack", label: words.live.onStack },
            { value: "metal", label: words.live.onMetal },
          ]}
        />
      </div>
      {rested.line ? <p className="note bad">{rested.line}</p> : null}
      {film ? <Film film={film} stale={!rested.current} /> : <p className="quiet">{words.live.filmWorking}</p>}
    </section>
  );
});

const Film = memo(function Film({ film, stale }: { readonly film: PulseFilm; readonly stale: boolean }) {
  useUnitSystem();
  const last = film.times.length - 1;
  const [index, setIndex] = useState(() => hottest(film));
  const [playing, setPlaying] = useState(false);
  const now = Math.min(index, last);
  const scale = useMemo(() => filmScale(film), [film]);
  const cells = useMemo(() => rowsToCells(film, ROWS), [film]);
  const section = useRef<HTMLCanvasElement>(null);
  const streak = useRef<HTMLCanvasElement>(null);

  useEffect(() => {
    const context = streak.current?.getContext("2d");
    if (!context) return;
    context.canvas.width = film.times.length;
    context.canvas.height = ROWS;
    const image = context.createImageData(film.times.length, ROWS);
    for (let i = 0; i < film.times.length; i++) paintFrame(image, film, i, cells, scale, i, i + 1);
    context.putImageData(image, 0, 0);
  }, [film, cells, scale]);

  useEffect(() => {
    const context = section.current?.getContext("2d");
    if (!context) return;
    context.canvas.width = 2;
    context.canvas.height = ROWS;
    const image = context.createImageData(2, ROWS);
    paintFrame(image, film, now, cells, scale, 0, 2);
    context.putImageData(image, 0, 0);
  }, [film, now, cells, scale]);

  useEffect(() => {
    if (!playing) return;
    const timer = setInterval(() => setIndex((i) => (i >= last ? 0 : i + 1)), FRAME_MS);
    return () => clearInterval(timer);
  }, [playing, last]);

  const time = film.times[now] ?? 0;
  const lit = time > 0 && time <= film.duration;
  const { gone, surface, metal } = frameFigures(film, now);
  return (
    <div className="film" aria-busy={stale}>
      <div className="film-pictures">
        <Section
          film={film}
          lit={lit}
          canvas={section}
          label={words.live.filmSays(timeText(time), quantityText(surface, "degC"))}
        />
        <div className="film-streak">
          <canvas ref={streak} role="img" aria-label={words.live.streak} />
          <span className="film-cursor" style={{ left: `${(100 * (now + 0.5)) / (last + 1)}%` }} />
          <span className="film-off small" style={{ left: `${(100 * lightEnd(film)) / (last + 1)}%` }}>
            {words.live.lightEnds}
          </span>
        </div>
      </div>
      <div className="row middle film-bar">
        <Button variant="default" size="compact-md" onClick={() => setPlaying((p) => !p)}>
          {playing ? words.live.pause : words.live.play}
        </Button>
        <Slider
          className="grow"
          min={0}
          max={last}
          step={1}
          value={now}
          onChange={(value) => {
            setPlaying(false);
            setIndex(value);
          }}
          label={null}
          thumbLabel={words.live.time}
          thumbValueText={timeText(time)}
        />
        <strong className="film-time">{timeText(time)}</strong>
      </div>
      <Key scale={scale} film={film} />
      <dl className="figures">
        <Figure name={words.live.surface} value={surface} unit="degC" />
        <Figure name={words.live.metalNow} value={metal} unit="degC" />
        <Figure name={words.live.takenOff} value={gone} unit="um" digits={2} />
        <Figure name={words.live.metalPeak} value={film.metalPeak} unit="degC" />
        <Figure name={words.setting.melt} value={film.meltDepth} unit="um" digits={2} />
        <Figure name={words.setting.fluence} value={film.fluence} unit="J/cm2" />
      </dl>
      <ul className="small quiet">
        {film.caveats.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );
});

/** The moment to show first: the hottest of the metal. */
function hottest(film: PulseFilm): number {
  let best = 0;
  film.times.forEach((_, i) => {
    if (frameFigures(film, i).metal > frameFigures(film, best).metal) best = i;
  });
  return best;
}

const lightEnd = (film: PulseFilm): number => film.times.filter((t) => t <= film.duration).length;

function Section({
  film,
  lit,
  canvas,
  label,
}: {
  readonly film: PulseFilm;
  readonly lit: boolean;
  readonly canvas: React.RefObject<HTMLCanvasElement | null>;
  readonly label: string;
}) {
  const depth = film.edges.at(-1) ?? 1;
  let top = 0;
  const bands = film.layers.map((layer) => {
    const band = { layer, top, height: layer.thickness / depth };
    top += band.height;
    return band;
  });
  return (
    <div className="film-section">
      <div className={`film-light ${lit ? "on" : ""}`}>
        <svg viewBox="0 0 60 24" width="60" height="24" aria-hidden="true">
          {[10, 30, 50].map((x) => (
            <path key={x} d={`M${x} 2V20M${x - 4} 14L${x} 21L${x + 4} 14`} fill="none" strokeWidth="1.8" />
          ))}
        </svg>
      </div>
      <div className="film-column">
        <canvas ref={canvas} role="img" aria-label={label} />
        {bands.map(({ layer, top: from, height }) => (
          <span
            key={layer.name}
            className={`film-band ${layer.mustStay ? "stays" : ""}`}
            style={{ top: `${100 * from}%`, height: `${100 * height}%` }}
          />
        ))}
      </div>
      <ul className="film-names small">
        {bands.map(({ layer, height }) => (
          <li key={layer.name} style={{ flex: `${Math.max(0.06, height)} 0 0` }}>
            {layer.name}, {quantityText(layer.thickness, "um", 3)}
            {layer.mustStay ? `, ${words.live.stays}` : ""}
          </li>
        ))}
        <li style={{ flex: `${Math.max(0.06, 1 - top)} 0 0` }}>
          {film.metalName}, {words.live.depthShown(quantityText(depth * (1 - top), "um", 2))}
        </li>
      </ul>
    </div>
  );
}

function Key({
  scale,
  film,
}: {
  readonly scale: { readonly low: number; readonly high: number };
  readonly film: PulseFilm;
}) {
  const marks = film.marks.filter((m) => m.temperature > scale.low && m.temperature <= scale.high * 1.0001);
  const gradient = Array.from({ length: 11 }, (_, i) => mapColour(i / 10, "viridis")).join(", ");
  const share = (t: number) => (100 * (t - scale.low)) / (scale.high - scale.low);
  return (
    <div className="film-key small">
      <div className="film-ramp" style={{ background: `linear-gradient(to right, ${gradient})` }}>
        {marks.map((mark) => (
          <span key={mark.words} className="film-mark" style={{ left: `${Math.min(100, share(mark.temperature))}%` }} />
        ))}
      </div>
      <div className="row apart">
        <span>{quantityText(scale.low, "degC", 3)}</span>
        <span className="quiet">
          {marks.map((m) => `${m.words} ${quantityText(m.temperature, "degC", 3)}`).join(" · ")}
        </span>
        <span>{quantityText(scale.high, "degC", 3)}</span>
      </div>
    </div>
  );
}
