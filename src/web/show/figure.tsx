import type { ReactNode } from "react";
import { noValue } from "#units";
import { type Behind, OpenName } from "./behind.tsx";
import { quantityText } from "./quantity-text.ts";

interface Props {
  readonly name: string;
  /** SI value, shown in `unit` */
  readonly value: number | null | undefined;
  readonly unit: string;
  readonly digits?: number;
  readonly low?: number | undefined;
  readonly high?: number | undefined;
  /** said below the number where there is no spread */
  readonly note?: string;
  /** said below that */
  readonly extra?: string;
  /** opened from the name */
  readonly behind?: Behind;
}

/** One number with its name, its unit and, where known, its spread. */
export function Figure({ name, value, unit, digits = 3, low, high, note, extra, behind }: Props) {
  return (
    <FigureText
      name={name}
      note={low !== undefined && high !== undefined && low !== high ? between(low, high, unit, digits) : note}
      extra={extra}
      behind={behind}
    >
      <Quantity value={value} unit={unit} digits={digits} />
    </FigureText>
  );
}

export function FigureText({
  name,
  children,
  note,
  extra,
  behind,
}: {
  readonly name: string;
  readonly children: ReactNode;
  readonly note?: string | undefined;
  readonly extra?: string | undefined;
  readonly behind?: Behind | undefined;
}) {
  return (
    <div className="figure">
      <dt>{behind ? <OpenName name={name} behind={behind} /> : name}</dt>
      <dd>{children}</dd>
      {note ? <dd className="between">{note}</dd> : null}
      {extra ? <dd className="between">{extra}</dd> : null}
    </div>
  );
}

/** An SI value set as number and quieter unit. */
export function Quantity({
  value,
  unit,
  digits = 3,
}: {
  readonly value: number | null | undefined;
  readonly unit: string;
  readonly digits?: number;
}) {
  const text = quantityText(value ?? null, unit, digits);
  if (text === noValue) return <span className="quiet">{noValue}</span>;
  const cut = text.indexOf(" ");
  if (cut < 0) return <span>{text}</span>;
  return (
    <span>
      {text.slice(0, cut)}
      <span className="unit">{text.slice(cut + 1)}</span>
    </span>
  );
}

function between(low: number, high: number, unit: string, digits: number): string {
  const lowText = quantityText(low, unit, digits);
  const highText = quantityText(high, unit, digits);
  const unitPart = highText.slice(highText.indexOf(" "));
  const shortLow = lowText.endsWith(unitPart) && highText.includes(" ") ? lowText.slice(0, -unitPart.length) : lowText;
  return `${shortLow} to ${highText} (5 to 95 %)`;
}
