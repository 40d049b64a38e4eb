import { Button, NativeSelect } from "@mantine/core";
import { useQuery } from "@tanstack/react-query";
import { shopHistory } from "../../api/answers.ts";
import { whenText } from "../../show/when.ts";
import { words } from "../../words/index.ts";
import { ShopFieldInput } from "./shop-field.tsx";
import { shopGroups, shopRanges } from "./shop-fields.ts";
import type { ShopDraft, ShopSave } from "./use-shop.ts";

const say = words.economy.shop;

/** A line of refusal with the field named as the form names it. */
const lineOf = (line: string | undefined, label: string): string | null =>
  line === undefined ? null : line.replace(/^invalid [^:]+:/, `invalid ${label.toLowerCase()}:`);

/** The shop's own times and money: every field may stay empty. */
export function ShopForm({ enquiryId, draft }: { readonly enquiryId: string; readonly draft: ShopDraft }) {
  const { typed, errors, change } = draft;
  const currency = errors.currency === undefined ? typed.currency?.trim() || "EUR" : "EUR";
  const field = (path: string, label: string) => ({
    label,
    value: typed[path] ?? "",
    error: lineOf(errors[path], label),
    onChange: (text: string) => change(path, text),
  });
  return (
    <section className="sheet stack" id="shop-figures">
      <header className="stack tight">
        <h2>{say.title}</h2>
        <p className="quiet small">{say.lead}</p>
        <ShopState enquiryId={enquiryId} draft={draft} />
      </header>
      <div className="row from-top">
        <ShopFieldInput
          placeholder={say.example("EUR")}
          decimal={false}
          maxLength={10}
          width={150}
          {...field("currency", say.currency)}
        />
        <div className="grow">
          <ShopFieldInput description={say.noteHelp} decimal={false} maxLength={300} {...field("note", say.note)} />
        </div>
      </div>
      {shopGroups(currency).map((group) => (
        <fieldset key={group.title} className="shop-group">
          <legend>{group.title}</legend>
          <p className="quiet small">{group.help}</p>
          <div className="shop-fields">
            {group.fields.map((f) => (
              <ShopFieldInput
                key={f.path}
                unit={f.unit}
                decimal={f.kind === "number"}
                placeholder={f.example === null ? "" : say.example(String(Number(f.example.toPrecision(6))))}
                {...field(f.path, f.label)}
              />
            ))}
          </div>
        </fieldset>
      ))}
      <details className="shop-ranges">
        <summary>{say.rangesTitle}</summary>
        <p className="quiet small">{say.rangesHelp}</p>
        <div className="stack tight">
          {shopRanges(currency).map(({ name, label, unit, example }) => (
            <div key={name} className="row from-top">
              {[0, 1].map((end) => (
                <ShopFieldInput
                  key={end}
                  label={end === 0 ? say.low(label) : say.high(label)}
                  unit={unit}
                  width={260}
                  value={typed[`ranges.${name}.${end}`] ?? ""}
                  onChange={(text) => change(`ranges.${name}.${end}`, text)}
                  error={end === 0 ? lineOf(errors[`ranges.${name}`], say.rangeOf(label)) : null}
                  placeholder={example}
                />
              ))}
            </div>
          ))}
        </div>
      </details>
    </section>
  );
}

const tone: Partial<Record<ShopSave, string>> = { offline: "warn", refused: "bad", conflict: "warn", invalid: "bad" };

/** The state of saving in words, undo, and the way back to earlier versions. */
function ShopState({ enquiryId, draft }: { readonly enquiryId: string; readonly draft: ShopDraft }) {
  const { save, version, errors } = draft;
  const history = useQuery({
    queryKey: ["shop-history", enquiryId],
    queryFn: () => shopHistory(enquiryId),
  });
  const versions = history.data?.versions ?? [];
  const state =
    save === "saved"
      ? say.saved(version)
      : save === "invalid"
        ? say.invalid(Object.keys(errors).length)
        : words.save[save];
  return (
    <>
      <div className="row middle">
        <span className={`small ${tone[save] ? `tag ${tone[save]}` : "quiet"}`} role="status">
          {state}
        </span>
        <Button size="compact-sm" variant="default" onClick={draft.undo} disabled={!draft.canUndo}>
          {words.save.undo}
        </Button>
        <Button size="compact-sm" variant="default" onClick={draft.redo} disabled={!draft.canRedo}>
          {words.save.redo}
        </Button>
        {versions.length > 1 ? (
          <NativeSelect
            size="xs"
            aria-label={say.earlier}
            value={String(version)}
            onChange={(event) => draft.takeBack(Number(event.currentTarget.value))}
            data={versions.map((v) => ({
              value: String(v.version),
              label: v.version === version ? say.earlierNow(v.version) : say.earlierAt(v.version, whenText(v.savedAt)),
            }))}
          />
        ) : null}
      </div>
      {save === "conflict" ? (
        <div className="note warn" role="alert">
          <p>{say.conflict}</p>
          <div className="row middle">
            <Button size="compact-sm" variant="default" onClick={() => draft.settle("theirs")}>
              {words.save.theirs}
            </Button>
            <Button size="compact-sm" onClick={() => draft.settle("mine")}>
              {words.save.mine}
            </Button>
          </div>
        </div>
      ) : null}
      {(save === "refused" || save === "offline") && draft.line ? (
        <p className="note bad" role="alert">
          {draft.line}
        </p>
      ) : null}
    </>
  );
}
