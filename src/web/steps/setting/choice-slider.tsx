import { Slider } from "@mantine/core";
import { quantityText } from "../../show/quantity-text.ts";

interface Props {
  readonly id: string;
  readonly label: string;
  readonly unit: string;
  /** SI, ascending: what the machine offers */
  readonly choices: readonly number[];
  readonly value: number;
  readonly onChange: (value: number) => void;
}

/** A control that a machine offers some values of: dragged from one to the next. */
export function ChoiceSlider({ id, label, unit, choices, value, onChange }: Props) {
  const at = Math.max(0, choices.indexOf(value));
  const text = quantityText(choices[at], unit, 3);
  return (
    <div className="control">
      <span id={`${id}-label`}>{label}</span>
      <Slider
        min={0}
        max={choices.length - 1}
        step={1}
        value={at}
        marks={choices.map((_, i) => ({ value: i }))}
        onChange={(i) => onChange(choices[i] ?? value)}
        label={null}
        thumbLabel={label}
        thumbValueText={text}
      />
      <span className="chosen">{text}</span>
      <div className="limits">
        <span>{quantityText(choices[0], unit, 3)}</span>
        <span>{quantityText(choices.at(-1), unit, 3)}</span>
      </div>
    </div>
  );
}
