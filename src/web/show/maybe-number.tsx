import { Button, NumberInput } from "@mantine/core";
import { useEffect, useState } from "react";
import { plainNumber } from "../enquiry/doc.ts";

interface Props {
  readonly label: string;
  readonly unit: string;
  readonly value: number | string | null | undefined;
  /** the words where there is no number, for example "unknown" or "no limit" */
  readonly emptyWords: string;
  readonly onChange: (value: number | null) => void;
  readonly min?: number;
  readonly max?: number;
  readonly step?: number;
  readonly hideLabel?: boolean;
  readonly required?: boolean;
  readonly width?: number | string;
}

/** A number with its unit that may also be left empty, which then means something said in words. */
export function MaybeNumber({
  label,
  unit,
  value,
  emptyWords,
  onChange,
  min = 0,
  max,
  step = 1,
  hideLabel,
  required,
  width = 150,
}: Props) {
  const known = plainNumber(value);
  const [typed, setTyped] = useState<number | string>(known ?? "");
  const [seen, setSeen] = useState(known);
  if (seen !== known) {
    setSeen(known);
    setTyped(known ?? "");
  }
  useEffect(() => {
    if (typed === "" || typeof typed !== "number") return;
    if (typed === known || typed < min || typed === 0 || (max !== undefined && typed > max)) return;
    onChange(typed);
  }, [typed]);
  const wrong =
    typeof typed === "number" && (typed < min || (typed === 0 && min === 0) || (max !== undefined && typed > max));
  return (
    <NumberInput
      {...(hideLabel ? { "aria-label": label } : { label })}
      value={typed}
      onChange={(next) => {
        setTyped(next);
        if (next === "" && !required) onChange(null);
      }}
      error={
        wrong ? `${min > 0 ? `from ${min}` : "above 0"}${max === undefined ? "" : ` to ${max}`} ${unit}` : undefined
      }
      placeholder={emptyWords}
      suffix={unit ? ` ${unit}` : ""}
      step={step}
      w={width}
      hideControls
      thousandSeparator=" "
      allowNegative={false}
    />
  );
}

/** A word that can be pressed, in place of an icon. */
export function WordButton({
  children,
  onClick,
  disabled,
  label,
}: {
  readonly children: string;
  readonly onClick: () => void;
  readonly disabled?: boolean;
  readonly label?: string;
}) {
  return (
    <Button
      variant="subtle"
      size="compact-sm"
      onClick={onClick}
      disabled={disabled ?? false}
      {...(label ? { "aria-label": label } : {})}
    >
      {children}
    </Button>
  );
}
