import { useRef, useState } from "react";
import { toSI } from "#units";
import { quantityText } from "../../show/quantity-text.ts";
import { type LayerDoc, plainNumber } from "../../enquiry/doc.ts";
import { useLibrary } from "../../library/use-library.ts";
import { words } from "../../words/index.ts";
import { layerColour, layerName, usualThicknessOf } from "./layer-choices.ts";

interface Props {
  readonly layers: readonly LayerDoc[];
  readonly metalName: string;
  readonly metalThickness: number | string | undefined;
  readonly onThickness: (index: number, thickness_um: number) => void;
}

const width = 560;
const left = 96;
const right = 366;
const topSpace = 44;
const layersHeight = 150;
const metalHeight = 52;

/** The stack section as the place where a part is entered: layers to scale, lower edges that can be dragged. */
export function StackEditor({ layers, metalName, metalThickness, onThickness }: Props) {
  const library = useLibrary();
  const svg = useRef<SVGSVGElement>(null);
  const [drag, setDrag] = useState<{ index: number; scale: number; top: number } | null>(null);
  const thicknesses = layers.map((layer) => plainNumber(layer.thickness_um) ?? usualThicknessOf(library, layer));
  const total = thicknesses.reduce((sum, t) => sum + t, 0);
  // While an edge is dragged the scale stands still, or the edge would run away from the hand.
  const scale = drag?.scale ?? (total > 0 ? layersHeight / total : 1);
  let y = topSpace;
  const boxes = thicknesses.map((thickness) => {
    const box = { y, height: Math.max(3, thickness * scale) };
    y += box.height;
    return box;
  });
  const metalTop = y;
  const height = metalTop + metalHeight + 12;

  function pointY(event: React.PointerEvent): number {
    const box = svg.current?.getBoundingClientRect();
    return box ? ((event.clientY - box.top) / box.height) * height : 0;
  }
  function begin(event: React.PointerEvent, index: number): void {
    const box = boxes[index];
    if (!box) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    setDrag({ index, scale, top: box.y });
  }
  function move(event: React.PointerEvent): void {
    if (!drag) return;
    const um = Math.max(0.5, (pointY(event) - drag.top) / drag.scale);
    onThickness(drag.index, roundNicely(um));
  }
  function step(event: React.KeyboardEvent, index: number): void {
    const factor = { ArrowDown: 1.05, ArrowUp: 1 / 1.05, PageDown: 1.5, PageUp: 1 / 1.5 }[event.key];
    if (!factor) return;
    event.preventDefault();
    const now = thicknesses[index] ?? 1;
    const next = roundNicely(now * factor);
    onThickness(index, next === now ? Math.max(0.5, now + (factor > 1 ? 1 : -1)) : next);
  }

  return (
    <div className="picture full">
      <svg
        ref={svg}
        viewBox={`0 0 ${width} ${height}`}
        role="group"
        aria-label={words.part.section}
        style={{ maxWidth: 640, touchAction: drag ? "none" : "pan-y" }}
      >
        <LightRays y={topSpace} />
        {layers.map((layer, index) => {
          const box = boxes[index];
          if (!box) return null;
          const unknown = plainNumber(layer.thickness_um) === null;
          const middle = box.y + box.height / 2;
          return (
            <g key={index}>
              <rect
                x={left}
                y={box.y}
                width={right - left}
                height={box.height}
                fill={layerColour(library, layer)}
                stroke="var(--ink)"
                strokeWidth="0.75"
              />
              {layer.mustStay ? (
                <path
                  d={`M${left - 6} ${box.y + 1} h-5 v${Math.max(1, box.height - 2)} h5`}
                  fill="none"
                  stroke="var(--good)"
                  strokeWidth="2.5"
                />
              ) : null}
              <text x={right + 14} y={labelY(boxes, index, middle)} fontSize="12.5" fill="var(--ink)">
                {layerName(library, layer)}
              </text>
              <text x={right + 14} y={labelY(boxes, index, middle) + 13} fontSize="11.5" fill="var(--quiet)">
                {unknown ? `${words.part.setUnknown}, drawn ${um(thicknesses[index])}` : um(thicknesses[index])}
                {layer.mustStay ? ` · ${words.part.mustStay}` : ""}
              </text>
            </g>
          );
        })}
        <path
          d={`M${left} ${metalTop} H${right} V${metalTop + metalHeight} l-18 6 l-18 -10 l-18 9 L${left} ${metalTop + metalHeight} Z`}
          fill="var(--metal)"
          stroke="var(--ink)"
          strokeWidth="0.75"
        />
        <text x={right + 14} y={metalTop + 24} fontSize="12.5" fill="var(--ink)">
          {metalName}
        </text>
        <text x={right + 14} y={metalTop + 37} fontSize="11.5" fill="var(--quiet)">
          {typeof metalThickness === "number"
            ? quantityText(toSI(metalThickness, "mm"), "mm")
            : (metalThickness ?? words.frame.unknown)}
        </text>
        {total > 0 ? <ScaleBar scale={scale} /> : null}
        {layers.map((layer, index) => {
          const box = boxes[index];
          if (!box) return null;
          const edge = box.y + box.height;
          return (
            <g
              key={index}
              role="slider"
              tabIndex={0}
              aria-orientation="vertical"
              aria-label={words.part.dragEdge(layerName(library, layer))}
              aria-valuenow={thicknesses[index] ?? 0}
              aria-valuemin={0.5}
              aria-valuemax={20000}
              aria-valuetext={um(thicknesses[index])}
              style={{ cursor: "ns-resize", touchAction: "none" }}
              onPointerDown={(event) => begin(event, index)}
              onPointerMove={move}
              onPointerUp={() => setDrag(null)}
              onPointerCancel={() => setDrag(null)}
              onKeyDown={(event) => step(event, index)}
            >
              <rect x={left} y={edge - 7} width={right - left} height={14} fill="transparent" />
              <circle
                cx={(left + right) / 2}
                cy={edge}
                r={drag?.index === index ? 6 : 4.5}
                fill="var(--sheet)"
                stroke="var(--accent)"
                strokeWidth="2"
              />
            </g>
          );
        })}
      </svg>
    </div>
  );
}

function LightRays({ y }: { readonly y: number }) {
  return (
    <g aria-hidden="true">
      {[-26, 0, 26].map((dx) => (
        <path
          key={dx}
          d={`M231 ${y - 34} m${dx} 0 v26 m-4 -6 l4 6 l4 -6`}
          fill="none"
          stroke="var(--accent)"
          strokeWidth="1.6"
        />
      ))}
      <text x={276} y={y - 22} fontSize="11.5" fill="var(--accent)">
        {words.part.light}
      </text>
    </g>
  );
}

function ScaleBar({ scale }: { readonly scale: number }) {
  const wanted = 60 / scale;
  const power = 10 ** Math.floor(Math.log10(wanted));
  const length = [5, 2, 1].map((k) => k * power).find((l) => l <= wanted) ?? power;
  const pixels = length * scale;
  return (
    <g aria-hidden="true">
      <path d={`M40 ${topSpace} h-6 m6 0 v${pixels} m0 0 h-6`} fill="none" stroke="var(--quiet)" strokeWidth="1" />
      <text
        x={28}
        y={topSpace + pixels / 2}
        fontSize="11"
        fill="var(--quiet)"
        textAnchor="middle"
        transform={`rotate(-90 28 ${topSpace + pixels / 2})`}
      >
        {um(length)}
      </text>
    </g>
  );
}

/** Labels of thin layers are pushed apart so that they stay readable. */
function labelY(boxes: readonly { y: number; height: number }[], index: number, middle: number): number {
  let lowest = Number.NEGATIVE_INFINITY;
  let at = middle;
  for (let i = 0; i <= index; i++) {
    const box = boxes[i];
    if (!box) continue;
    at = Math.max(box.y + box.height / 2 - 1, lowest + 30);
    lowest = at;
  }
  return at;
}

function um(value: number | undefined): string {
  return quantityText(value === undefined ? null : toSI(value, "um"), "um");
}

function roundNicely(value: number): number {
  if (value >= 100) return Math.round(value / 5) * 5;
  if (value >= 20) return Math.round(value);
  return Math.round(value * 2) / 2 || 0.5;
}
