import type { TemperatureTable } from "#terms";
import { unitLabel } from "#units";
import { words } from "../words/index.ts";
import { Curve } from "./curve.tsx";
import { withNumber, withPoints, withSource, withValue } from "./entry-draft.ts";
import { fieldLabel } from "./entry-figures.tsx";
import type { Field } from "./fields.ts";
import { OriginFields } from "./figure-field.tsx";
import type { FieldProps } from "./field-props.ts";
import { readPoints, typedNumber, typedPoints } from "./panel-numbers.ts";
import { isTree, placeName, readAt } from "./tree.ts";
import { TypedInput } from "./typed-input.tsx";

type Props = FieldProps<Extract<Field, { readonly kind: "table" }>>;

const say = words.library.form;

/** A property over temperature: its points one a line, with the curve that they make beside them. */
export function TableField({ field, draft, change, problems, sources }: Props) {
  const found = readAt(draft.entry, field.path);
  const label = fieldLabel(field);
  const place = placeName(field.path);
  if (!isTree(found)) return null;
  const table = found as unknown as TemperatureTable;
  const typed = draft.typed[place];
  const wrong = Object.entries(problems).find(
    ([at]) => at === place || at.startsWith(`${place}.temperature`) || at.startsWith(`${place}.value`),
  );
  const enter = (text: string) => {
    const points = readPoints(text, field.panel);
    change(
      (d) =>
        Array.isArray(points) ? withPoints(d, field.path, points) : { ...d, typed: { ...d.typed, [place]: text } },
      place,
    );
  };
  const bad = typed === undefined ? null : readPoints(typed, field.panel);
  return (
    <fieldset className="lib-figure lib-broad">
      <legend>{label}</legend>
      <div className="lib-table">
        <TypedInput
          shown
          label={`${say.points} (°C, ${unitLabel(field.panel)})`}
          value={typed ?? typedPoints(table, field.panel)}
          onEnter={enter}
          place={place}
          lines={8}
          problem={typeof bad === "string" ? say.pointsWrong(bad) : wrong?.[1]}
        />
        <Curve name={label} table={table} panel={field.panel} bare />
      </div>
      <div className="lib-pair">
        <TypedInput
          shown
          label={`${say.relativeSpread} (%)`}
          value={draft.typed[`${place}.relativeSpread`] ?? typedNumber(table.relativeSpread, "%")}
          onEnter={(text) =>
            change((d) => withNumber(d, [...field.path, "relativeSpread"], "%", text), `${place}.relativeSpread`)
          }
          problem={problems[`${place}.relativeSpread`]}
          decimal
        />
        <TypedInput
          shown
          label={say.validRange}
          value={table.validRange}
          onEnter={(text) => change((d) => withValue(d, [...field.path, "validRange"], text), `${place}.validRange`)}
          problem={problems[`${place}.validRange`]}
        />
      </div>
      <OriginFields
        label={label}
        source={table.source ?? null}
        fromMemory={table.fromMemory ?? draft.head.fromMemory}
        own={draft.head.source}
        sources={sources}
        onSource={(source) => change((d) => withSource(d, field.path, source), `${place}.source`)}
        onMemory={(on) => change((d) => withValue(d, [...field.path, "fromMemory"], on), `${place}.fromMemory`)}
      />
    </fieldset>
  );
}
