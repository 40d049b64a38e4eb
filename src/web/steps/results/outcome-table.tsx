import { useDeferredValue, useEffect, useRef, useState } from "react";
import type { MetalConditionGrade, Outcome, Trial } from "#terms";
import { emptyOutcome } from "../../api/trials.ts";
import { seenPatches, typedOver } from "../../show/seen-patches.ts";
import { words } from "../../words/index.ts";
import { useRowSaver } from "./row-saver.ts";
import { cellText, columns, type ColumnKey, readCell } from "./columns.ts";

interface Props {
  readonly trial: Trial;
  readonly outcomes: readonly Outcome[];
  /** patches that were skipped at the machine: not asked for unless somebody said something of them */
  readonly skipped: ReadonlySet<number>;
  /** resolves to a line when the row was refused; `before` is what the row said until then */
  readonly onSave: (outcome: Outcome, before: Outcome) => Promise<string | null>;
}

const noPatches: Trial["patches"] = [];

type Typed = Partial<Record<ColumnKey | "note" | "metalCondition", string>>;

/** What is still typed once `saved` of a patch is kept: cells that were typed anew meanwhile stay. */
function withoutSaved(now: Readonly<Record<number, Typed>>, patch: number, saved: Typed): Record<number, Typed> {
  const { [patch]: mine = {}, ...rest } = now;
  const left = Object.fromEntries(Object.entries(mine).filter(([key, text]) => saved[key as keyof Typed] !== text));
  return Object.keys(left).length === 0 ? rest : { ...rest, [patch]: left };
}

/** A row per burned patch. A row is saved as it is left; what is refused stays typed and says why. */
export function OutcomeTable({ trial, outcomes, skipped, onSave }: Props) {
  const [typed, setTyped] = useState<Readonly<Record<number, Typed>>>({});
  const [lines, setLines] = useState<Readonly<Record<number, string>>>({});
  const [saves, setSaves] = useState(0);
  const kept = useRef<[patch: number, saved: Typed][]>([]);
  const table = useRef<HTMLTableElement>(null);
  // Hundreds of fields: the rest of the page comes first, the rows when there is time.
  const patches = useDeferredValue(trial.patches, noPatches);
  const known = new Map(seenPatches(outcomes).map((o) => [o.patch, o]));
  const asked = (patch: number) => !skipped.has(patch) || known.has(patch) || typed[patch] !== undefined;
  const rows = patches.filter((p) => p.setting !== null && asked(p.patch)).toSorted((a, b) => a.runOrder - b.runOrder);
  const changed = (patch: number): Outcome => typedOver(outcomes, patch, emptyOutcome(trial.id, patch));
  const saver = useRowSaver(outcomes, changed, onSave);
  // What was typed stays in its cell until the page has the row: else the cell would fall back for a moment.
  useEffect(() => {
    const done = kept.current.splice(0);
    if (done.length > 0)
      setTyped((now) => done.reduce((left, [patch, saved]) => withoutSaved(left, patch, saved), now));
  }, [outcomes, saves]);
  const put = (patch: number, change: Typed) => setTyped((now) => ({ ...now, [patch]: { ...now[patch], ...change } }));

  const save = async (patch: number, change: Typed = {}) => {
    const mine = { ...typed[patch], ...change };
    if (Object.keys(mine).length === 0) return;
    let said: Partial<Outcome> = {};
    for (const [key, text] of Object.entries(mine)) {
      if (key === "note") said = { ...said, note: text };
      else if (key === "metalCondition")
        said = { ...said, metalCondition: text === "" ? null : (Number(text) as MetalConditionGrade) };
      else {
        const read = readCell(key as ColumnKey, text);
        if (read === undefined) {
          const label = columns.find((c) => c.key === key)?.label ?? key;
          setLines((now) => ({ ...now, [patch]: words.results.notANumber(label) }));
          return;
        }
        said = { ...said, [key]: read, ...(key === "residueFraction" ? { residueUncertainty: null } : {}) };
      }
    }
    const refused = await saver.save(patch, (before) => ({ ...before, ...said }));
    setLines(({ [patch]: _old, ...rest }) => (refused ? { ...rest, [patch]: refused } : rest));
    if (!refused) kept.current.push([patch, mine]);
    if (!refused) setSaves((now) => now + 1);
  };

  const move = (event: React.KeyboardEvent<HTMLElement>, row: number, column: number) => {
    const to = event.key === "ArrowDown" || event.key === "Enter" ? row + 1 : event.key === "ArrowUp" ? row - 1 : row;
    if (to === row || to < 0 || to >= rows.length) return;
    event.preventDefault();
    table.current?.querySelector<HTMLElement>(`[data-cell="${to}-${column}"]`)?.focus();
  };

  const waiting = Object.keys(typed).length;
  return (
    <section className="stack tight">
      <p className="small quiet" role="status">
        {waiting > 0 ? words.results.unsaved(waiting) : words.results.savedRows}
      </p>
      <div className="table">
        <table className="grid entry" ref={table}>
          <caption className="small quiet">{words.results.caption}</caption>
          <thead>
            <tr>
              <th scope="col">{words.trial.patch}</th>
              <th scope="col">{words.results.condition}</th>
              {columns.map((c) => (
                <th key={c.key} scope="col">
                  {c.label}
                </th>
              ))}
              <th scope="col">{words.results.note}</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((p, row) => {
              const outcome = known.get(p.patch);
              const mine = typed[p.patch] ?? {};
              return (
                <tr key={p.patch} onBlur={(e) => !e.currentTarget.contains(e.relatedTarget) && save(p.patch)}>
                  <th scope="row">
                    {p.patch}
                    {lines[p.patch] ? (
                      <span className="small" role="alert">
                        {" "}
                        {lines[p.patch]}
                      </span>
                    ) : null}
                  </th>
                  <td>
                    <select
                      aria-label={`${words.trial.patch} ${p.patch}, ${words.results.condition}`}
                      value={mine.metalCondition ?? outcome?.metalCondition ?? ""}
                      onChange={(e) => {
                        const change = { metalCondition: e.currentTarget.value };
                        put(p.patch, change);
                        void save(p.patch, change);
                      }}
                    >
                      <option value="">–</option>
                      {[0, 1, 2, 3, 4].map((g) => (
                        <option key={g} value={g}>
                          {words.grades[g]}
                        </option>
                      ))}
                    </select>
                  </td>
                  {columns.map((c, column) => (
                    <td key={c.key}>
                      <input
                        data-cell={`${row}-${column}`}
                        inputMode="decimal"
                        size={6}
                        aria-label={`${words.trial.patch} ${p.patch}, ${c.label}`}
                        value={mine[c.key] ?? cellText(c, outcome)}
                        onChange={(e) => put(p.patch, { [c.key]: e.currentTarget.value })}
                        onKeyDown={(e) => move(e, row, column)}
                      />
                    </td>
                  ))}
                  <td>
                    <input
                      aria-label={`${words.trial.patch} ${p.patch}, ${words.results.note}`}
                      maxLength={200}
                      size={14}
                      value={mine.note ?? outcome?.note ?? ""}
                      onChange={(e) => put(p.patch, { note: e.currentTarget.value })}
                    />
                  </td>
                </tr>
              );
            })}
          </tbody>
        </table>
      </div>
    </section>
  );
}
