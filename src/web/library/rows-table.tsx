import { unitLabel } from "#units";
import { shownUnit } from "../show/quantity-text.ts";
import { words } from "../words/index.ts";
import { type Field, fieldKey } from "./fields.ts";
import { bareNumber } from "./panel-numbers.ts";
import type { Tree } from "./tree.ts";

type Rows = Extract<Field, { readonly kind: "rows" }>;

export const columnLabel = (field: Rows, key: string): string =>
  words.library.fields[`${fieldKey(field.path)}.${key}`] ?? key;

/** Lenses or pulse widths of a set-up. */
export function RowsTable({ field, rows }: { readonly field: Rows; readonly rows: readonly Tree[] }) {
  if (rows.length === 0) return <span className="quiet">{words.frame.none}</span>;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: on a narrow page it is moved sideways, by keys too
    <section className="table" tabIndex={0} aria-label={words.library.fields[fieldKey(field.path)]}>
      <table className="grid">
        <thead>
          <tr>
            {field.columns.map(({ key, panel }) => (
              <th key={key} scope="col" className={panel === null ? "" : "num"}>
                {columnLabel(field, key)}
                {panel === null ? "" : `, ${unitLabel(shownUnit(panel))}`}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            <tr key={`${i} ${String(row[field.columns[0]?.key ?? ""])}`}>
              {field.columns.map(({ key, panel }) =>
                panel === null ? (
                  <td key={key}>{String(row[key])}</td>
                ) : (
                  <td key={key} className="num">
                    {bareNumber(row[key] as number, shownUnit(panel))}
                  </td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
