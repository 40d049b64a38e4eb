import { TextInput } from "@mantine/core";
import { useEffect, useState } from "react";

interface Props {
  readonly label: string;
  readonly unit?: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly error: string | null;
  readonly onChange: (text: string) => void;
  readonly description?: string;
  readonly maxLength?: number;
  readonly decimal?: boolean;
  readonly width?: number | string;
}

/** How long a person may stop typing before it counts as entered; leaving the field enters it at once. */
const REST_MS = 900;

/** One figure of the shop as text: entered when the field is left or typing rests, so that each entry is one step to undo. */
export function ShopFieldInput({
  label,
  unit = "",
  value,
  placeholder = "",
  error,
  onChange,
  description,
  maxLength = 80,
  decimal = true,
  width,
}: Props) {
  const [text, setText] = useState(value);
  const [seen, setSeen] = useState(value);
  if (seen !== value) {
    setSeen(value);
    setText(value);
  }
  useEffect(() => {
    if (text === value) return;
    const timer = setTimeout(() => onChange(text), REST_MS);
    return () => clearTimeout(timer);
  }, [text]);
  return (
    <TextInput
      label={unit === "" ? label : `${label} (${unit})`}
      value={text}
      onChange={(event) => setText(event.currentTarget.value)}
      onBlur={() => text !== value && onChange(text)}
      onKeyDown={(event) => event.key === "Enter" && text !== value && onChange(text)}
      placeholder={placeholder}
      error={error}
      maxLength={maxLength}
      {...(description === undefined ? {} : { description })}
      {...(width === undefined ? {} : { w: width })}
      {...(decimal ? { inputMode: "decimal" as const } : {})}
    />
  );
}
