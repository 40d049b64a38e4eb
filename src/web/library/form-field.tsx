import { unitLabel } from "#units";
import { words } from "../words/index.ts";
import { withNumber, withValue } from "./entry-draft.ts";
import type { FieldProps } from "./field-props.ts";
import { fieldLabel } from "./entry-figures.tsx";
import type { Field } from "./fields.ts";
import { FigureFields } from "./figure-field.tsx";
import { typedNumber } from "./panel-numbers.ts";
import { RowsField } from "./rows-field.tsx";
import { TableField } from "./table-field.tsx";
import { placeName, readAt } from "./tree.ts";
import { Choice, Tick, TypedInput } from "./typed-input.tsx";

/** One field of an entry, in the form that its kind asks for. */
export function FormField(props: FieldProps) {
  const { field, draft, change, problems } = props;
  const place = placeName(field.path);
  const label = fieldLabel(field);
  const value = readAt(draft.entry, field.path);
  const set = (next: unknown) => change((d) => withValue(d, field.path, next), place);
  switch (field.kind) {
    case "figure":
      return <FigureFields {...props} field={field} />;
    case "table":
      return <TableField {...props} field={field} />;
    case "rows":
      return <RowsField {...props} field={field} />;
    case "number": {
      const unit = unitLabel(field.panel);
      return (
        <TypedInput
          shown
          decimal
          label={unit === "" ? label : `${label} (${unit})`}
          value={draft.typed[place] ?? typedNumber(value, field.panel)}
          onEnter={(text) => change((d) => withNumber(d, field.path, field.panel, text), place)}
          problem={problems[place]}
          place={place}
        />
      );
    }
    case "text":
      return <TypedInput shown label={label} value={String(value ?? "")} onEnter={set} problem={problems[place]} />;
    case "lines":
      return (
        <TypedInput
          shown
          lines={3}
          label={label}
          help={words.library.form.linesHelp}
          value={(value as readonly string[]).join("\n")}
          onEnter={(text) => set(text.split("\n").flatMap((l) => (l.trim() === "" ? [] : [l.trim()])))}
          problem={problems[place]}
          place={place}
        />
      );
    case "colour":
      return (
        <label className="lib-tick">
          <input type="color" value={String(value ?? "#b9b09d")} onChange={(event) => set(event.currentTarget.value)} />
          {label}
        </label>
      );
    case "choice":
      return (
        <Choice
          shown
          label={label}
          value={String(value)}
          values={field.values.map((v) => [v, words.library.values[v] ?? v] as const)}
          onChange={set}
        />
      );
    case "choices":
      return <Choices {...props} field={field} label={label} value={value as readonly string[]} set={set} />;
  }
}

interface ChoicesProps extends FieldProps<Extract<Field, { readonly kind: "choice" | "choices" }>> {
  readonly label: string;
  readonly value: readonly string[];
  readonly set: (next: readonly string[]) => void;
}

function Choices({ field, label, value, set, fume, problems }: ChoicesProps) {
  const all = field.values.length === 0 ? fume : field.values.map((v) => [v, words.library.values[v] ?? v] as const);
  const place = placeName(field.path);
  const problem = Object.entries(problems).find(([at]) => at === place || at.startsWith(`${place}.`))?.[1];
  return (
    <fieldset className="lib-figure">
      <legend>{label}</legend>
      <div className="lib-ticks">
        {all.map(([id, name]) => (
          <Tick
            key={id}
            label={name}
            checked={value.includes(id)}
            onChange={(on) => set(on ? [...value, id] : value.filter((v) => v !== id))}
          />
        ))}
      </div>
      {problem === undefined ? null : <p className="lib-problem">{problem}</p>}
    </fieldset>
  );
}
