import { Button } from "@mantine/core";
import { unitLabel } from "#units";
import { words } from "../words/index.ts";
import { withNumber, withValue } from "./entry-draft.ts";
import { fieldLabel } from "./entry-figures.tsx";
import { type Field, fieldKey } from "./fields.ts";
import type { FieldProps } from "./field-props.ts";
import { typedNumber } from "./panel-numbers.ts";
import { columnLabel } from "./rows-table.tsx";
import { placeName, readAt, type Tree } from "./tree.ts";
import { TypedInput } from "./typed-input.tsx";

type Props = FieldProps<Extract<Field, { readonly kind: "rows" }>>;

const say = words.library.form;

/** Lenses or pulse widths, one row each; a new row starts as a copy of the last. */
export function RowsField({ field, draft, change, problems }: Props) {
  const rows = (readAt(draft.entry, field.path) ?? []) as readonly Tree[];
  const place = placeName(field.path);
  const key = fieldKey(field.path);
  const add = () => {
    const last = rows[rows.length - 1] ?? blank[key] ?? {};
    const named = "id" in last ? { ...last, id: freeId(rows, String(last.id)) } : last;
    change((d) => withValue(d, field.path, [...rows, named]), `${place} add`);
  };
  return (
    <fieldset className="lib-figure lib-broad">
      <legend>{fieldLabel(field)}</legend>
      {rows.map((row, i) => (
        <fieldset key={i} className="lib-row" aria-label={say.row(fieldLabel(field), i + 1)}>
          {field.columns.map(({ key: column, panel }) => {
            const at = placeName([...field.path, i, column]);
            const unit = panel === null ? "" : unitLabel(panel);
            const name = columnLabel(field, column);
            return (
              <TypedInput
                key={column}
                shown
                label={unit === "" ? name : `${name} (${unit})`}
                value={draft.typed[at] ?? (panel === null ? String(row[column]) : typedNumber(row[column], panel))}
                onEnter={(text) =>
                  change(
                    (d) =>
                      panel === null
                        ? withValue(d, [...field.path, i, column], text.trim())
                        : withNumber(d, [...field.path, i, column], panel, text),
                    at,
                  )
                }
                problem={problems[at]}
                place={at}
                decimal={panel !== null}
              />
            );
          })}
          <Button
            variant="subtle"
            color="gray"
            size="compact-sm"
            aria-label={say.dropRow(i + 1)}
            title={say.dropRow(i + 1)}
            onClick={() =>
              change(
                (d) =>
                  withValue(
                    d,
                    field.path,
                    rows.filter((_, k) => k !== i),
                  ),
                `${place} drop`,
              )
            }
          >
            ×
          </Button>
        </fieldset>
      ))}
      {problems[place] === undefined ? null : <p className="lib-problem">{problems[place]}</p>}
      <Button variant="default" size="compact-sm" onClick={add}>
        {say.addRow[key]}
      </Button>
    </fieldset>
  );
}

/** The first row of a list that had none: a usual one of the trade. */
const blank: Readonly<Record<string, Tree>> = {
  pulses: { width: 1e-7, energyMax: 1e-3, frequencyMax: 1e5 },
  lenses: { id: "f160", focalLength: 0.16, spotDiameter: 5e-5, rayleighLength: 1e-3, fieldSide: 0.1 },
};

function freeId(rows: readonly Tree[], id: string): string {
  const taken = new Set(rows.map((r) => String(r.id)));
  for (let n = 2; ; n++) if (!taken.has(`${id}-${n}`)) return `${id}-${n}`;
}
