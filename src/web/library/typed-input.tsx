import { useEffect, useId, useState } from "react";

interface Props {
  readonly label: string;
  readonly value: string;
  readonly onEnter: (text: string) => void;
  readonly problem?: string | undefined;
  readonly decimal?: boolean;
  readonly lines?: number;
  /** shows the label above the field; else it is only said */
  readonly shown?: boolean;
  readonly help?: string;
  /** its place in the entry, so that a refusal can lead to it */
  readonly place?: string;
}

/** How long a person may stop typing before it counts as entered; leaving the field enters it at once. */
const REST_MS = 400;

/** A text that is entered when its field is left or typing rests, so that each entry is one step to undo. */
export function TypedInput({ label, value, onEnter, problem, decimal, lines, shown, help, place }: Props) {
  const [text, setText] = useState(value);
  const [seen, setSeen] = useState(value);
  const id = useId();
  if (seen !== value) {
    setSeen(value);
    setText(value);
  }
  useEffect(() => {
    if (text === value) return;
    const timer = setTimeout(() => onEnter(text), REST_MS);
    return () => clearTimeout(timer);
  }, [text]);
  const enter = () => text !== value && onEnter(text);
  const said = [help === undefined ? "" : `${id}-help`, problem === undefined ? "" : `${id}-problem`]
    .filter(Boolean)
    .join(" ");
  const common = {
    id,
    value: text,
    className: "lib-input",
    onBlur: enter,
    ...(place === undefined ? {} : { "data-place": place }),
    maxLength: lines === undefined ? 400 : 20_000,
    ...(shown ? {} : { "aria-label": label }),
    ...(problem === undefined ? {} : { "aria-invalid": true }),
    ...(said === "" ? {} : { "aria-describedby": said }),
  };
  return (
    <div className="lib-field">
      {shown ? <label htmlFor={id}>{label}</label> : null}
      {help === undefined ? null : (
        <span id={`${id}-help`} className="small quiet">
          {help}
        </span>
      )}
      {lines === undefined ? (
        <input
          {...common}
          type="text"
          {...(decimal ? { inputMode: "decimal" as const } : {})}
          onChange={(event) => setText(event.currentTarget.value)}
          onKeyDown={(event) => event.key === "Enter" && enter()}
        />
      ) : (
        <textarea {...common} rows={lines} onChange={(event) => setText(event.currentTarget.value)} />
      )}
      {problem === undefined ? null : (
        <span id={`${id}-problem`} className="lib-problem">
          {problem}
        </span>
      )}
    </div>
  );
}

interface ChoiceProps {
  readonly label: string;
  readonly value: string;
  readonly values: readonly (readonly [value: string, name: string])[];
  readonly onChange: (value: string) => void;
  readonly shown?: boolean;
}

export function Choice({ label, value, values, onChange, shown }: ChoiceProps) {
  const id = useId();
  return (
    <div className="lib-field">
      {shown ? <label htmlFor={id}>{label}</label> : null}
      <select
        id={id}
        className="lib-input"
        {...(shown ? {} : { "aria-label": label })}
        value={value}
        onChange={(event) => onChange(event.currentTarget.value)}
      >
        {values.map(([v, name]) => (
          <option key={v} value={v}>
            {name}
          </option>
        ))}
      </select>
    </div>
  );
}

interface TickProps {
  readonly label: string;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
  readonly said?: string;
}

/** A tick with its words; `said` is what is read aloud where the words alone would not say of what. */
export function Tick({ label, checked, onChange, said }: TickProps) {
  return (
    <label className="lib-tick">
      <input
        type="checkbox"
        checked={checked}
        onChange={(event) => onChange(event.currentTarget.checked)}
        {...(said === undefined ? {} : { "aria-label": said })}
      />
      {label}
    </label>
  );
}
