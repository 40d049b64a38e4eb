import type { Property } from "#terms";
import { unitLabel } from "#units";
import { words } from "../words/index.ts";
import { type EntryDraft, withEmptyFigure, withFigure, withShape, withSource, withValue } from "./entry-draft.ts";
import { fieldLabel } from "./entry-figures.tsx";
import type { Field } from "./fields.ts";
import type { FieldProps } from "./field-props.ts";
import { typedNumber } from "./panel-numbers.ts";
import { isTree, placeName, readAt } from "./tree.ts";
import { Choice, Tick, TypedInput } from "./typed-input.tsx";

type FigureField = Extract<Field, { readonly kind: "figure" }>;
type Props = FieldProps<FigureField>;

const say = words.library.form;
const shapes = ["normal", "lognormal", "uniform", "fixed"] as const;
const three = ["value", "low", "high"] as const;

/** Value, low and high of a figure in the unit of a panel, with its source. */
export function FigureFields(props: Props) {
  const { field, draft, change } = props;
  const label = fieldLabel(field);
  const figure = readAt(draft.entry, field.path);
  const known = isTree(figure);
  return (
    <fieldset className="lib-figure">
      <legend>{label}</legend>
      {field.optional ? (
        <Tick
          label={say.known(label)}
          checked={known}
          onChange={(on) =>
            change(
              (d) => (on ? withEmptyFigure(d, field.path, field.si, say.asMeasured) : withValue(d, field.path, null)),
              `known ${placeName(field.path)}`,
            )
          }
        />
      ) : null}
      {known ? <Known {...props} label={label} figure={figure as unknown as Property} /> : null}
    </fieldset>
  );
}

function Known({
  field,
  draft,
  change,
  problems,
  sources,
  label,
  figure,
}: Props & { readonly label: string; readonly figure: Property }) {
  const unit = unitLabel(field.panel);
  const place = placeName(field.path);
  const set = (key: string, value: unknown) =>
    change((d: EntryDraft) => withValue(d, [...field.path, key], value), `${place}.${key}`);
  return (
    <>
      <div className="lib-three">
        {three.map((which) => (
          <span key={which} className="small quiet" aria-hidden="true">
            {say[which]}
          </span>
        ))}
        <span />
        {three.map((which) => {
          const at = `${place}.${which}`;
          return (
            <TypedInput
              key={which}
              label={say.unitOf(label, say[which].toLowerCase(), unit)}
              value={draft.typed[at] ?? typedNumber(figure[which], field.panel)}
              onEnter={(text) => change((d) => withFigure(d, field.path, which, field.panel, text), at)}
              problem={problems[at]}
              place={at}
              decimal
            />
          );
        })}
        <span className="lib-unit">{unit}</span>
      </div>
      <OriginFields
        label={label}
        source={figure.source ?? null}
        fromMemory={figure.fromMemory ?? draft.head.fromMemory}
        own={draft.head.source}
        sources={sources}
        onSource={(source) => change((d) => withSource(d, field.path, source), `${place}.source`)}
        onMemory={(on) => set("fromMemory", on)}
      />
      <details className="small">
        <summary>{say.more}</summary>
        <div className="lib-more">
          <TypedInput
            shown
            label={say.validRange}
            value={figure.validRange}
            onEnter={(text) => set("validRange", text)}
            problem={problems[`${place}.validRange`]}
          />
          <Choice
            shown
            label={say.distribution}
            value={figure.distribution}
            values={shapes.map((s) => [s, words.library.values[s] ?? s] as const)}
            onChange={(shape) => change((d) => withShape(d, field.path, shape), `${place}.distribution`)}
          />
          <TypedInput
            shown
            label={say.noteOf}
            value={figure.note ?? ""}
            onEnter={(text) => set("note", text.trim() === "" ? undefined : text)}
            problem={problems[`${place}.note`]}
          />
        </div>
        {problems[`${place}.distribution`] === undefined ? null : (
          <p className="lib-problem">{problems[`${place}.distribution`]}</p>
        )}
      </details>
    </>
  );
}

interface OriginProps {
  readonly label: string;
  readonly source: string | null;
  readonly fromMemory: boolean;
  /** source id of the entry's own file */
  readonly own: string;
  readonly sources: FieldProps<FigureField>["sources"];
  readonly onSource: (source: string | null) => void;
  readonly onMemory: (on: boolean) => void;
}

/** Whose figure it is, and whether it was written down from memory. */
export function OriginFields({ label, source, fromMemory, own, sources, onSource, onMemory }: OriginProps) {
  const mine = source === null || source === own;
  return (
    <div className="lib-origin">
      <Choice
        label={say.whose(label)}
        value={mine ? "" : (source ?? "")}
        values={[["", say.mine], ...sources.map(([id, text]) => [id, text] as const)]}
        onChange={(id) => onSource(id === "" ? null : id)}
      />
      <Tick label={words.library.known} said={say.memoryOf(label)} checked={fromMemory} onChange={onMemory} />
    </div>
  );
}
