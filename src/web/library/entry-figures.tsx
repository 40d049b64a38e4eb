import type { Library } from "#library";
import type { Property, TemperatureTable } from "#terms";
import type { ShelfKey } from "../api/library.ts";
import { quantityText, rangeText } from "../show/quantity-text.ts";
import { words } from "../words/index.ts";
import { Curve } from "./curve.tsx";
import { type Field, fieldKey, type Group, groupsOf, groupThere } from "./fields.ts";
import { RowsTable } from "./rows-table.tsx";
import { sourceText } from "./origins.ts";
import { sourcesIn } from "./sources-in.ts";
import { isTree, placeName, readAt, type Tree } from "./tree.ts";

const say = words.library;
export const fieldLabel = (field: Field): string => say.fields[fieldKey(field.path)] ?? fieldKey(field.path);
export const groupTitle = ({ key, of }: Group): string => {
  const title = say.groups[key] ?? key;
  return of === undefined ? title : say.groupOf(title, say.values[of] ?? of);
};

interface Props {
  readonly shelf: ShelfKey;
  readonly entry: Tree;
  readonly library: Library;
}

/** Every figure of an entry with its spread, its range and its source. */
export function EntryFigures({ shelf, entry, library }: Props) {
  const sources = sourcesIn(entry);
  return (
    <>
      {groupsOf(shelf, entry).map((group) => (
        <section key={`${group.key} ${group.of ?? ""}`} className="sheet stack tight">
          <h2>{groupTitle(group)}</h2>
          {groupThere(entry, group) ? (
            <table className="grid lib-figures">
              <tbody>
                {group.fields.map((field) => (
                  <FieldRow key={placeName(field.path)} field={field} entry={entry} sources={sources} />
                ))}
              </tbody>
            </table>
          ) : (
            <p className="quiet">{say.noBlock[group.key]}</p>
          )}
        </section>
      ))}
      {sources.length > 0 ? (
        <section className="sheet stack tight">
          <h2>
            {say.sources} {entry.fromMemory === true ? <FromMemory /> : null}
          </h2>
          <ol className="small">
            {sources.map((id) => (
              <li key={id}>{sourceText(library, id)}</li>
            ))}
          </ol>
        </section>
      ) : null}
    </>
  );
}

interface RowProps {
  readonly field: Field;
  readonly entry: Tree;
  readonly sources: readonly string[];
}

function FieldRow({ field, entry, sources }: RowProps) {
  const value = readAt(entry, field.path);
  const label = fieldLabel(field);
  if (field.kind === "figure" && isTree(value)) {
    const p = value as unknown as Property;
    return (
      <tr>
        <th scope="row">{label}</th>
        <td className="lib-value">{quantityText(p.value, field.panel, 4)}</td>
        <td>{p.low === p.high ? say.exactly : say.between(rangeText(p.low, p.high, field.panel))}</td>
        <td className="small">
          <Origin of={p} sources={sources} />
        </td>
      </tr>
    );
  }
  if (field.kind === "table" && isTree(value))
    return (
      <tr>
        <th scope="row">{label}</th>
        <td colSpan={2} className="lib-wide">
          <Curve name={label} table={value as unknown as TemperatureTable} panel={field.panel} />
        </td>
        <td className="small">
          <Origin of={value as unknown as TemperatureTable} sources={sources} />
        </td>
      </tr>
    );
  return (
    <tr>
      <th scope="row">{label}</th>
      <td colSpan={3} className={field.kind === "rows" ? "lib-wide" : undefined}>
        <Plain field={field} value={value} />
      </td>
    </tr>
  );
}

function Plain({ field, value }: { readonly field: Field; readonly value: unknown }) {
  if (field.kind === "number") return quantityText(value as number, field.panel, 4);
  if (field.kind === "rows") return <RowsTable field={field} rows={value as readonly Tree[]} />;
  if (field.kind === "colour")
    return (
      <span className="lib-swatch">
        <i style={{ background: String(value ?? "transparent") }} aria-hidden="true" /> {String(value ?? say.noFigure)}
      </span>
    );
  if (Array.isArray(value))
    return field.kind === "lines" && value.length > 0 ? (
      <ul className="plain">
        {value.map((line) => (
          <li key={String(line)}>{String(line)}</li>
        ))}
      </ul>
    ) : (
      value.map((v) => say.values[String(v)] ?? String(v)).join(", ") || words.frame.none
    );
  if (value === null || value === undefined) return <span className="quiet">{say.noFigure}</span>;
  return field.kind === "choice" ? (say.values[String(value)] ?? String(value)) : String(value);
}

const FromMemory = () => (
  <span className="tag warn" title={say.knownHelp}>
    {say.known}
  </span>
);

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

/** Where a figure holds, where it comes from, and whether anybody confirmed it. */
function Origin({ of, sources }: { readonly of: Property | TemperatureTable; readonly sources: readonly string[] }) {
  const number = sources.indexOf(of.source) + 1;
  return (
    <>
      {of.fromMemory ? <FromMemory /> : null} {number > 0 ? `${say.source} ${number}. ` : ""}
      <span className="quiet">
        {say.validFor} {of.validRange}.{of.note === undefined ? "" : ` ${sentence(of.note)}`}
      </span>
    </>
  );
}
