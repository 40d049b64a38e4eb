import { NativeSelect } from "@mantine/core";
import { memo, useEffect, useMemo, useRef, useState } from "react";
import { frequencyRange } from "#beam";
import type { LaserSetup, Setting } from "#terms";
import { formatNumber, fromSI, unitLabel } from "#units";
import { type MapAxis, type MapControl, mapControls } from "#workflows";
import { words } from "../../words/index.ts";
import { MapMarks, marksText, type PlacedMark } from "./map-marks.tsx";
import { bothOf, contourPath, paintField } from "./map-field.ts";
import { lettered, movedTo, shareOf, valueAt } from "./pad-geometry.ts";
import { type LiveMap, mapControlsOf, useMap } from "./use-map.ts";
import type { Move } from "./use-stands.ts";

interface Props {
  readonly id: string;
  readonly ready: boolean;
  readonly partKey: string;
  readonly partId: string;
  readonly setup: LaserSetup;
  readonly setting: Setting;
  /** burned patches and settings found best */
  readonly marks: readonly PlacedMark[];
  readonly onChange: Move;
}

const preferred: Record<LaserSetup["kind"], { x: MapControl; y: MapControl }> = {
  pulsed: { x: "frequency", y: "power" },
  continuous: { x: "speed", y: "level" },
};

/** Chances over two controls with both edges; the setting is a point on it that can be dragged. */
export const MapPad = memo(function MapPad({ id, ready, partKey, partId, setup, setting, marks, onChange }: Props) {
  const offered = mapControlsOf(setup, setting);
  const [chosen, setChosen] = useState<{ x: MapControl; y: MapControl } | null>(null);
  const wanted = chosen ?? preferred[setup.kind];
  const x = offered.includes(wanted.x) ? wanted.x : (offered[0] ?? "speed");
  const y = offered.includes(wanted.y) && wanted.y !== x ? wanted.y : (offered.find((c) => c !== x) ?? "speed");
  const { map, working, line } = useMap(ready, partKey, partId, setup, setting, { x, y });
  const current = map !== null && map.x.control === x && map.y.control === y ? map : null;
  const choices = offered.map((c) => ({ value: c, label: words.setting[c] }));
  return (
    <section className="sheet stack tight map-pad">
      <h2>{words.live.mapTitle}</h2>
      <p className="small quiet">{words.live.mapLead}</p>
      <div className="row">
        <NativeSelect
          label={words.live.across}
          value={x}
          onChange={(e) =>
            setChosen({ x: e.currentTarget.value as MapControl, y: e.currentTarget.value === y ? x : y })
          }
          data={choices}
        />
        <NativeSelect
          label={words.live.upwards}
          value={y}
          onChange={(e) =>
            setChosen({ y: e.currentTarget.value as MapControl, x: e.currentTarget.value === x ? y : x })
          }
          data={choices}
        />
      </div>
      {line ? <p className="note bad">{line}</p> : null}
      {current ? (
        <Pad
          id={id}
          map={current}
          setup={setup}
          setting={setting}
          marks={marks}
          working={working}
          onChange={onChange}
        />
      ) : (
        <div className="pad-empty quiet">{words.live.mapWorking}</div>
      )}
      <p className="small quiet" role="status">
        {working ? words.live.mapWorking : `${words.live.mapKey} ${marks.length > 0 ? words.live.marksKey : ""}`}
      </p>
    </section>
  );
});

function Pad({
  id,
  map,
  setup,
  setting,
  marks,
  working,
  onChange,
}: {
  readonly id: string;
  readonly map: LiveMap;
  readonly setup: LaserSetup;
  readonly setting: Setting;
  readonly marks: readonly PlacedMark[];
  readonly working: boolean;
  readonly onChange: Props["onChange"];
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const held = useRef(false);
  useEffect(() => {
    const context = canvas.current?.getContext("2d");
    if (context) paintField(context, map);
  }, [map]);
  const lines = useMemo(
    () => ({
      clean: contourPath(map, map.clean, 0.5),
      undamaged: contourPath(map, map.undamaged, 0.5),
      good: contourPath(map, bothOf(map), 0.8),
      beyond: beyondPath(map),
    }),
    [map],
  );
  const at = {
    x: shareOf(map.x, setting[map.x.control] ?? 0),
    y: shareOf(map.y, setting[map.y.control] ?? 0),
  };
  const follow = (event: React.PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    const to = { x: (event.clientX - box.left) / box.width, y: 1 - (event.clientY - box.top) / box.height };
    onChange(setup, (now) => movedTo(setup, now, map.x, map.y, to), `map ${map.x.control} ${map.y.control}`);
  };
  return (
    <div className="pad-frame">
      <span className="pad-y-name small">{axisName(map.y.control)}</span>
      <Ticks axis={map.y} side="left" />
      {/* The same values have their own sliders above: the pad is a second way for a hand, not the only one. */}
      <div
        className={`pad ${working ? "stale" : ""}`}
        role="img"
        aria-label={`${words.live.mapSays(placeWords(map.x, at.x), placeWords(map.y, at.y))} ${marksText(marks)}`}
        onPointerDown={(event) => {
          held.current = true;
          event.currentTarget.setPointerCapture(event.pointerId);
          follow(event);
        }}
        onPointerMove={(event) => held.current && follow(event)}
        onPointerUp={() => {
          held.current = false;
        }}
        onPointerCancel={() => {
          held.current = false;
        }}
      >
        <canvas ref={canvas} aria-hidden="true" />
        <svg viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true">
          <defs>
            <pattern id={`${id}-beyond`} width="0.03" height="0.03" patternUnits="userSpaceOnUse">
              <path d="M0 0.03L0.03 0" stroke="#fff" strokeWidth="0.006" />
            </pattern>
          </defs>
          <path d={lines.beyond} className="pad-beyond" />
          <path d={lines.beyond} className="pad-hatch" style={{ fill: `url(#${id}-beyond)` }} />
          <path d={lines.good} className="pad-good" />
          <path d={lines.clean} className="pad-casing" />
          <path d={lines.clean} className="pad-clean" />
          <path d={lines.undamaged} className="pad-casing" />
          <path d={lines.undamaged} className="pad-undamaged" />
          <path d={energyLimit(map, setup, setting)} className="pad-limit" />
        </svg>
        <MapMarks marks={marks} x={map.x} y={map.y} />
        <span className="pad-point" style={{ left: `${100 * at.x}%`, top: `${100 * (1 - at.y)}%` }} />
      </div>
      <Ticks axis={map.x} side="bottom" />
      <span className="pad-x-name small">{axisName(map.x.control)}</span>
    </div>
  );
}

const axisName = (control: MapControl): string => {
  const unit = unitLabel(mapControls[control].unit);
  return unit ? `${words.setting[control]} (${unit})` : words.setting[control];
};

const numberOf = (control: MapControl, value: number): string => {
  const { unit } = mapControls[control];
  return formatNumber(unit === "" ? value : fromSI(value, unit), 3);
};

function placeWords(axis: MapAxis, share: number): string {
  const { unit } = mapControls[axis.control];
  return `${words.setting[axis.control]} ${numberOf(axis.control, valueAt(axis, share))} ${unitLabel(unit)}`.trim();
}

function Ticks({ axis, side }: { readonly axis: MapAxis; readonly side: "left" | "bottom" }) {
  return (
    <div className={`pad-ticks ${side}`} aria-hidden="true">
      {lettered(axis).map(({ share, value }) => (
        <span key={value} style={side === "left" ? { bottom: `${100 * share}%` } : { left: `${100 * share}%` }}>
          {numberOf(axis.control, value)}
        </span>
      ))}
    </div>
  );
}

/** Squares around places that the machine cannot be set to. */
function beyondPath(map: LiveMap): string {
  const columns = map.x.values.length;
  const rows = map.y.values.length;
  const [w, h] = [1 / (columns - 1), 1 / (rows - 1)];
  const found: string[] = [];
  for (let row = 0; row < map.rows; row++) {
    let from: number | null = null;
    for (let column = 0; column <= columns; column++) {
      const out = column < columns && map.allowed[row * columns + column] === 0;
      if (out && from === null) from = column;
      if (!out && from !== null) {
        const left = Math.max(0, (from - 0.5) * w);
        const right = Math.min(1, (column - 0.5) * w);
        const top = Math.max(0, 1 - (row + 0.5) * h);
        const bottom = Math.min(1, 1 - (row - 0.5) * h);
        found.push(
          `M${left.toFixed(4)} ${top.toFixed(4)}H${right.toFixed(4)}V${bottom.toFixed(4)}H${left.toFixed(4)}Z`,
        );
        from = null;
      }
    }
  }
  return found.join("");
}

/** Where the pulse energy limit begins to set the mean power, on a map of power over frequency. */
function energyLimit(map: LiveMap, setup: LaserSetup, setting: Setting): string {
  if (setup.kind !== "pulsed" || setting.pulseWidth === null) return "";
  const pulse = setup.pulses.find((p) => p.width === setting.pulseWidth);
  const range = frequencyRange(setup, setting.pulseWidth);
  const turned = map.x.control === "power" && map.y.control === "frequency";
  if (!pulse || !range || !(turned || (map.x.control === "frequency" && map.y.control === "power"))) return "";
  const points: string[] = [];
  for (let i = 0; i <= 40; i++) {
    const frequency = range.min * (range.max / range.min) ** (i / 40);
    const power = pulse.energyMax * frequency;
    if (power > setup.ratedPower) break;
    const [x, y] = turned
      ? [shareOf(map.x, power), shareOf(map.y, frequency)]
      : [shareOf(map.x, frequency), shareOf(map.y, power)];
    points.push(`${x.toFixed(4)} ${(1 - y).toFixed(4)}`);
  }
  return points.length < 2 ? "" : `M${points.join("L")}`;
}
