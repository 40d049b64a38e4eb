import { Button, TextInput } from "@mantine/core";
import { useState } from "react";
import { plainNumber } from "../enquiry/doc.ts";
import { words } from "../words/index.ts";
import { readNumber } from "./typed-number.ts";

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
  readonly whole?: boolean;
  /** a label stands beside the field and names it by this id */
  readonly id?: string;
  readonly small?: boolean;
  readonly hideLabel?: boolean;
  readonly required?: boolean;
  readonly width?: number | string;
}

/**
 * A number with its unit that may also be left empty, which then means something said in words. What reads is entered as
 * it is typed; what does not read when the field is left stays in sight with its line, and the number is the one before.
 */
export function MaybeNumber(props: Props) {
  const {
    label,
    unit,
    emptyWords,
    onChange,
    min = 0,
    max,
    step = 1,
    hideLabel,
    required,
    whole,
    id,
    small,
    width = 150,
  } = props;
  const known = plainNumber(props.value);
  /** what stands in the field while it differs from the number known */
  const [text, setText] = useState<string | null>(null);
  const [before, setBefore] = useState<number | null>(known);
  const [line, setLine] = useState<string | null>(null);
  const [seen, setSeen] = useState(known);
  const [own, setOwn] = useState(false);
  const rule = { label, unit, min, max, whole };
  const read = text === null ? null : readNumber(text, rule);
  if (seen !== known) {
    setSeen(known);
    // A number from elsewhere (an undo, a drag) takes the place of what was typed.
    if (own) setOwn(false);
    else {
      setText(null);
      setLine(null);
    }
  }
  const enter = (value: number | null) => {
    if (value === null && required) return;
    if (value === known) return;
    setOwn(true);
    onChange(value);
  };
  const type = (next: string) => {
    setText(next);
    setLine(null);
    const now = readNumber(next, rule);
    if (now.line === null) enter(now.value);
  };
  const leave = () => {
    if (text === null || read === null) return;
    setOwn(false);
    if (read.line === null) return setText(null);
    enter(before);
    setLine(words.numbers.stays(read.line, before === null ? emptyWords : shown(before, unit)));
  };
  const onKey = (event: React.KeyboardEvent) => {
    if (event.key === "Enter") return leave();
    const way = event.key === "ArrowUp" ? 1 : event.key === "ArrowDown" ? -1 : 0;
    if (way === 0 || known === null) return;
    event.preventDefault();
    const next = readNumber(String(Number((known + way * step).toPrecision(12))), rule);
    if (next.value === null) return;
    setText(null);
    setLine(null);
    enter(next.value);
  };
  return (
    <TextInput
      {...(id ? { id } : hideLabel ? { "aria-label": label } : { label })}
      {...(small ? { size: "xs" } : {})}
      value={text ?? (known === null ? "" : small ? `${known}${unit ? ` ${unit}` : ""}` : shown(known, unit))}
      onChange={(event) => type(event.currentTarget.value)}
      onFocus={() => line === null && setBefore(known)}
      onBlur={leave}
      onKeyDown={onKey}
      error={line}
      placeholder={emptyWords}
      inputMode="decimal"
      w={width}
    />
  );
}

/** As the field shows it: whole thousands apart, the unit behind. */
function shown(value: number, unit: string): string {
  const [whole = "", part] = String(value).split(".");
  const spaced = whole.replace(/\B(?=(\d{3})+$)/g, " ");
  return `${part === undefined ? spaced : `${spaced}.${part}`}${unit ? ` ${unit}` : ""}`;
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
