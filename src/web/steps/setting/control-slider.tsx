import { NumberInput, Slider } from "@mantine/core";
import { formatNumber } from "#units";
import type { Setting } from "#terms";
import { type Control, controlValue, withValue } from "./controls.ts";

interface Props {
  /** of the laser that the control belongs to: two may stand beside each other */
  readonly id: string;
  readonly control: Control;
  readonly setting: Setting;
  readonly onChange: (next: Setting) => void;
}

const STEPS = 400;

/** One control: drag it or type it; both stay inside the limits that hold now. */
export function ControlSlider({ id, control, setting, onChange }: Props) {
  const value = controlValue(control, setting);
  const { low, high, scale } = control;
  const toTrack = (v: number) =>
    scale === "log"
      ? (STEPS * Math.log(Math.max(v, low) / low)) / Math.log(high / low)
      : (STEPS * (v - low)) / (high - low);
  const fromTrack = (t: number) => {
    const raw = scale === "log" ? low * (high / low) ** (t / STEPS) : low + ((high - low) * t) / STEPS;
    return Math.round(raw / control.step) * control.step;
  };
  const decimals = control.step >= 1 ? 0 : control.step >= 0.1 ? 1 : 3;
  return (
    <div className="control">
      <label htmlFor={`${id}-${control.key}`}>{control.label}</label>
      <Slider
        min={0}
        max={STEPS}
        step={control.key === "passes" ? STEPS / Math.max(1, high - low) : 1}
        value={Math.min(STEPS, Math.max(0, toTrack(value)))}
        onChange={(t) => onChange(withValue(control, setting, fromTrack(t)))}
        label={null}
        thumbLabel={control.label}
        thumbProps={{ "aria-valuetext": `${formatNumber(value, 4)} ${control.unit}` }}
      />
      <NumberInput
        id={`${id}-${control.key}`}
        size="xs"
        value={Number(value.toFixed(decimals))}
        onChange={(next) =>
          typeof next === "number" && (next > 0 || low <= 0) && onChange(withValue(control, setting, next))
        }
        decimalScale={decimals}
        suffix={control.unit ? ` ${control.unit}` : ""}
        hideControls
        allowNegative={low < 0}
      />
      <div className="limits">
        <span>{`${formatNumber(low, 3)} ${control.unit}`}</span>
        <span>{`${formatNumber(high, 3)} ${control.unit}`}</span>
      </div>
    </div>
  );
}
