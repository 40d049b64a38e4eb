import { Slider } from "@mantine/core";
import { memo } from "react";
import { formatNumber } from "#units";
import { MaybeNumber } from "../../show/maybe-number.tsx";
import type { Control } from "./controls.ts";

interface Props {
  /** of the laser that the control belongs to: two may stand beside each other */
  readonly id: string;
  readonly control: Control;
  /** as the control shows it */
  readonly value: number;
  readonly onMove: (control: Control, value: number) => void;
}

const STEPS = 400;
const ways: Readonly<Record<string, number>> = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 };

/** The same control in the same place: nothing to draw anew, whatever else of the setting moved. */
const same = (a: Props, b: Props): boolean =>
  a.id === b.id &&
  a.value === b.value &&
  a.onMove === b.onMove &&
  (Object.keys(a.control) as (keyof Control)[]).every((key) => a.control[key] === b.control[key]);

/** One control: drag it or type it; both stay inside the limits that hold now. */
export const ControlSlider = memo(function ControlSlider({ id, control, value, onMove }: Props) {
  const { low, high, scale } = control;
  const toTrack = (v: number) =>
    scale === "log"
      ? (STEPS * Math.log(Math.max(v, low) / low)) / Math.log(high / low)
      : (STEPS * (v - low)) / (high - low);
  const fromTrack = (t: number) => {
    const raw = scale === "log" ? low * (high / low) ** (t / STEPS) : low + ((high - low) * t) / STEPS;
    return Math.round(raw / control.step) * control.step;
  };
  const track = Math.min(STEPS, Math.max(0, toTrack(value)));
  const trackStep = scale === "even" ? Math.max(1, (STEPS * control.step) / (high - low)) : 1;
  /** A key that the track is too fine for, so that the machine would stand where it stood, moves one step of the machine. */
  const onKey = (event: React.KeyboardEvent) => {
    const way = ways[event.key] ?? 0;
    if (way === 0 || Math.abs(fromTrack(track + way * trackStep) - value) > control.step / 2) return;
    event.preventDefault();
    event.stopPropagation();
    onMove(control, value + way * control.step);
  };
  const decimals = control.step >= 1 ? 0 : control.step >= 0.1 ? 1 : 3;
  return (
    <div className="control">
      <label htmlFor={`${id}-${control.key}`}>{control.label}</label>
      <div className="track" onKeyDownCapture={onKey}>
        <Slider
          min={0}
          max={STEPS}
          step={trackStep}
          value={track}
          onChange={(t) => onMove(control, fromTrack(t))}
          label={null}
          thumbLabel={control.label}
          thumbValueText={`${formatNumber(value, 4)} ${control.unit}`}
        />
      </div>
      <MaybeNumber
        id={`${id}-${control.key}`}
        small
        label={control.label}
        unit={control.unit}
        value={Number(value.toFixed(decimals))}
        emptyWords=""
        min={low < 0 ? Number.NEGATIVE_INFINITY : 0}
        step={control.step}
        required
        whole={control.unit === ""}
        width="100%"
        onChange={(next) => next !== null && onMove(control, next)}
      />
      <div className="limits">
        <span>{`${formatNumber(low, 3)} ${control.unit}`}</span>
        <span>{`${formatNumber(high, 3)} ${control.unit}`}</span>
      </div>
    </div>
  );
}, same);
