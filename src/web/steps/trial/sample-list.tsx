import { Button, Checkbox, TextInput } from "@mantine/core";
import { useQuery, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import type { Sample } from "#terms";
import { listSamples, putSample } from "../../api/enquiries.ts";
import { words } from "../../words/index.ts";

/** Plates received from the customer, as records. */
export function SampleList({ enquiryId, partId }: { readonly enquiryId: string; readonly partId: string }) {
  const queries = useQueryClient();
  const samples = useQuery({ queryKey: ["samples", enquiryId], queryFn: () => listSamples(enquiryId) });
  const [label, setLabel] = useState("");
  const [line, setLine] = useState<string | null>(null);
  const mine = (samples.data?.samples ?? []).filter((s) => s.partId === partId);
  const save = async (sample: Sample) => {
    try {
      await putSample(sample);
      setLine(null);
      await queries.invalidateQueries({ queryKey: ["samples", enquiryId] });
    } catch (error) {
      setLine(error instanceof Error ? error.message : String(error));
    }
  };
  const add = async () => {
    const today = new Date().toISOString().slice(0, 10);
    const id = `${partId}-sample-${mine.length + 1}`;
    await save({
      id,
      enquiryId,
      partId,
      label: label || id,
      received: today,
      returned: null,
      conditionPhoto: null,
      thicknessMap: [],
      untouchedWitnessKept: null,
      note: "",
    });
    setLabel("");
  };
  return (
    <section className="sheet stack tight">
      <h2>{words.trial.samples}</h2>
      <p className="small quiet">{words.trial.samplesLead}</p>
      {mine.length === 0 ? <p className="quiet">{words.trial.samplesNone}</p> : null}
      {line ? (
        <p className="note bad" role="alert">
          {line}
        </p>
      ) : null}
      {mine.map((s) => (
        <div key={s.id} className="row middle">
          <strong>{s.label}</strong>
          <span className="small quiet">
            {words.trial.received} {s.received ?? "–"}
          </span>
          <Checkbox
            label={words.trial.witness}
            checked={s.untouchedWitnessKept === true}
            onChange={(e) => save({ ...s, untouchedWitnessKept: e.currentTarget.checked })}
          />
          {s.returned ? (
            <span className="small quiet">
              {words.trial.returned} {s.returned}
            </span>
          ) : (
            <Button
              variant="default"
              size="compact-sm"
              onClick={() => save({ ...s, returned: new Date().toISOString().slice(0, 10) })}
            >
              {words.trial.returned}
            </Button>
          )}
        </div>
      ))}
      <div className="row">
        <TextInput
          label={words.trial.sampleLabel}
          value={label}
          onChange={(e) => setLabel(e.currentTarget.value)}
          maxLength={80}
        />
        <Button variant="default" onClick={add} style={{ alignSelf: "end" }}>
          {words.trial.addSample}
        </Button>
      </div>
    </section>
  );
}
