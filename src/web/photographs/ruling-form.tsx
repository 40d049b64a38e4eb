import { Button, NativeSelect, TextInput } from "@mantine/core";
import { useState } from "react";
import type { RulingWire } from "#contract";
import type { MetalConditionGrade } from "#terms";
import { words } from "../words/index.ts";
import { percentText, readResidueText } from "./reading-text.ts";
import { acceptable, isOverruled, type WirePatch } from "./rulings.ts";

interface Props {
  readonly patch: WirePatch;
  readonly grader: string;
  readonly onGrader: (name: string) => void;
  /** null takes back what was said */
  readonly onRule: (ruling: RulingWire | null) => void;
}

const say = words.photographs.rule;

/** Accept, overrule or take back: a person's word, with the reading beside it. */
export function RulingForm({ patch, grader, onGrader, onRule }: Props) {
  const { ruling } = patch;
  const [residue, setResidue] = useState("");
  const [metal, setMetal] = useState("");
  const [note, setNote] = useState("");
  const [shown, setShown] = useState<string | null>(null);
  // The fields follow what is saved; they are not built anew, so that the focus stays where it is.
  const saved = JSON.stringify(ruling);
  if (shown !== saved) {
    setShown(saved);
    setResidue(ruling?.residue_percent == null ? "" : String(ruling.residue_percent));
    setMetal(ruling?.metalCondition == null ? "" : String(ruling.metalCondition));
    setNote(ruling?.note ?? "");
  }
  const [line, setLine] = useState<string | null>(null);
  const common = { patch: patch.patch, grader: grader.trim() };

  const rule = (made: () => RulingWire | string) => {
    const result = common.grader === "" ? say.graderNeeded : made();
    setLine(typeof result === "string" ? result : null);
    if (typeof result !== "string") onRule(result);
  };
  const accept = () =>
    rule(() =>
      acceptable(patch) ? { ...common, residue_percent: null, metalCondition: null, note: "" } : say.cannotAccept,
    );
  const overrule = () =>
    rule(() => {
      const share = residue.trim() === "" ? null : Number(residue.trim().replace(",", "."));
      if (share !== null && !(share >= 0 && share <= 100)) return `${say.residue} ${say.residueWrong}`;
      if (share === null && metal === "") return say.nothing;
      const metalCondition = metal === "" ? null : (Number(metal) as MetalConditionGrade);
      return { ...common, residue_percent: share, metalCondition, note: note.trim() };
    });

  return (
    <section className="stack tight" aria-label={say.title}>
      <h4>{say.title}</h4>
      {ruling === null ? null : <Said patch={patch} ruling={ruling} />}
      <div className="row">
        <TextInput label={say.grader} value={grader} onChange={(e) => onGrader(e.currentTarget.value)} maxLength={80} />
        <TextInput
          label={say.residue}
          inputMode="decimal"
          w={110}
          value={residue}
          onChange={(e) => setResidue(e.currentTarget.value)}
          maxLength={12}
        />
        <NativeSelect
          label={say.metal}
          value={metal}
          onChange={(e) => setMetal(e.currentTarget.value)}
          data={[
            { value: "", label: say.asRead },
            ...[0, 1, 2, 3, 4].map((g) => ({ value: String(g), label: words.grades[g] ?? String(g) })),
          ]}
        />
        <TextInput
          className="grow"
          miw={180}
          label={say.note}
          value={note}
          onChange={(e) => setNote(e.currentTarget.value)}
          maxLength={1000}
        />
      </div>
      {line === null ? null : (
        <p className="note bad" role="alert">
          {line}
        </p>
      )}
      <div className="row">
        <Button onClick={accept} disabled={!acceptable(patch)}>
          {say.accept}
        </Button>
        <Button variant="default" onClick={overrule}>
          {say.overrule}
        </Button>
        {ruling === null ? null : (
          <Button variant="subtle" onClick={() => onRule(null)}>
            {say.takeBack}
          </Button>
        )}
      </div>
      {acceptable(patch) ? null : <p className="small quiet">{say.cannotAccept}</p>}
    </section>
  );
}

/** What was said, and what the photographs had said. */
function Said({ patch, ruling }: { readonly patch: WirePatch; readonly ruling: RulingWire }) {
  if (!isOverruled(ruling)) return <p className="note good">{say.agreed(ruling.grader)}</p>;
  const said = [
    ...(ruling.residue_percent === null ? [] : [say.residueSaid(percentText(ruling.residue_percent))]),
    ...(ruling.metalCondition === null ? [] : [say.metalSaid(words.grades[ruling.metalCondition] ?? "")]),
  ].join(", ");
  const readMetal = patch.read?.metalCondition ?? null;
  const read = [
    patch.reading.residue === null ? say.unread : say.residueSaid(readResidueText(patch)),
    ...(readMetal === null ? [] : [say.metalSaid(words.grades[readMetal] ?? "")]),
  ].join(", ");
  return (
    <div className="note warn">
      <p>
        {say.said(ruling.grader)}: <strong>{said}</strong>
        {ruling.note === "" ? "" : `. ${ruling.note}`}
      </p>
      <p>
        {say.ofReading} <strong>{read}</strong>
      </p>
    </div>
  );
}
