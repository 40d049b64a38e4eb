import { Button, Select, TextInput } from "@mantine/core";
import { changeLayer, changePart, type KnowledgeDoc, type PartDoc, partId } from "../../enquiry/doc.ts";
import type { StepProps } from "../../enquiry/step-props.ts";
import { goTo, linkTo } from "../../app/route.ts";
import { useLibrary } from "../../library/use-library.ts";
import { MaybeNumber } from "../../show/maybe-number.tsx";
import { words } from "../../words/index.ts";
import { AcceptanceForm } from "./acceptance-form.tsx";
import { FacesForm } from "./faces-form.tsx";
import { metalChoices, metalName, noMetals } from "./layer-choices.ts";
import { LayerRows } from "./layer-rows.tsx";
import { SiteForm } from "./site-form.tsx";
import { StackEditor } from "./stack-editor.tsx";

export function PartStep({ enquiryId, draft, doc, part, index }: StepProps) {
  const library = useLibrary();
  const set = (change: Partial<PartDoc>) => draft.change((now) => changePart(now, index, change));
  const declined = noMetals.includes(part.material ?? "");
  const addPart = () => {
    const taken = new Set(doc.parts.map(partId));
    let n = doc.parts.length + 1;
    while (taken.has(`part-${n}`)) n++;
    draft.change((now) => ({ ...now, parts: [...now.parts, { ...part, id: `part-${n}`, name: `Part ${n}` }] }));
    goTo(linkTo({ enquiryId, step: "part", query: { part: `part-${n}` } }));
  };
  const removePart = () => {
    draft.change((now) => ({ ...now, parts: now.parts.filter((_, i) => i !== index) }));
    goTo(linkTo({ enquiryId, step: "part" }));
  };
  return (
    <div className="stack">
      <header className="stack tight">
        <h1>{words.part.title}</h1>
        <p className="lead">{words.part.lead}</p>
      </header>
      <div className="row">
        <TextInput
          className="grow"
          label={words.part.enquiryTitle}
          value={doc.title ?? ""}
          onChange={(e) => draft.change((now) => ({ ...now, title: e.target.value }))}
          miw={200}
        />
        <TextInput
          label={words.part.customer}
          value={doc.customer ?? ""}
          onChange={(e) => draft.change((now) => ({ ...now, customer: e.target.value }))}
          w={220}
        />
      </div>
      <section className="sheet stack" aria-labelledby="part-metal">
        <h2 id="part-metal">{part.name ?? partId(part, index)}</h2>
        <div className="row">
          <TextInput
            label={words.part.name}
            value={part.name ?? ""}
            onChange={(e) => set({ name: e.target.value })}
            w={220}
          />
          <Select
            label={words.part.material}
            data={[
              {
                group: words.part.material,
                items: [{ value: "unknown", label: words.frame.unknown }, ...metalChoices(library)],
              },
              { group: words.part.materialOther, items: noMetals.map((value) => ({ value, label: value })) },
            ]}
            value={part.material ?? "unknown"}
            onChange={(value) => value && set({ material: value })}
            searchable
            allowDeselect={false}
            w={230}
          />
          <MaybeNumber
            label={words.part.thickness}
            unit="mm"
            value={part.thickness_mm}
            emptyWords={words.frame.unknown}
            max={1000}
            width={130}
            onChange={(value) => set({ thickness_mm: value ?? "unknown" })}
          />
          <MaybeNumber
            label={words.part.area}
            unit="m²"
            value={part.area_m2}
            emptyWords="1 m²"
            max={1e6}
            required
            width={120}
            onChange={(value) => value !== null && set({ area_m2: value })}
          />
          <MaybeNumber
            label={words.part.count}
            unit=""
            value={part.count ?? 1}
            emptyWords="1"
            min={1}
            max={1e6}
            required
            whole
            width={100}
            onChange={(value) => value !== null && set({ count: value })}
          />
          <MaybeNumber
            label={words.part.rate}
            unit="m²/h"
            value={part.rateWanted_m2_per_h}
            emptyWords={words.frame.any}
            max={1e5}
            width={120}
            onChange={(value) => set({ rateWanted_m2_per_h: value })}
          />
        </div>
        {declined ? <p className="note warn">{words.part.declined}</p> : null}
      </section>
      <section className="sheet stack" aria-labelledby="part-stack">
        <div>
          <h2 id="part-stack">{words.part.section}</h2>
          <p className="quiet small">{words.part.sectionHelp}</p>
        </div>
        <StackEditor
          layers={part.layers ?? []}
          metalName={metalName(library, part.material)}
          metalThickness={part.thickness_mm}
          onThickness={(layer, thickness_um) => set(changeLayer(part, layer, { thickness_um }))}
        />
        <LayerRows part={part} onChange={set} />
      </section>
      <section className="sheet stack" aria-labelledby="part-acceptance">
        <h2 id="part-acceptance">{words.part.acceptance}</h2>
        <AcceptanceForm
          acceptance={part.acceptance ?? {}}
          onChange={(change) => set({ acceptance: { ...part.acceptance, ...change } })}
        />
      </section>
      <div className="split">
        <section className="sheet stack" aria-labelledby="part-faces">
          <div>
            <h2 id="part-faces">{words.part.faces}</h2>
            <p className="quiet small">{words.part.facesLead}</p>
          </div>
          <FacesForm faces={part.faces ?? [{ kind: "flat" }]} onChange={(faces) => set({ faces })} />
        </section>
        <section className="sheet stack" aria-labelledby="part-hazards">
          <h2 id="part-hazards">{words.part.hazards}</h2>
          <Knowledge label={words.part.lead_} value={part.lead ?? "unknown"} onChange={(lead) => set({ lead })} />
          <Knowledge
            label={words.part.chromate}
            value={part.chromate ?? "unknown"}
            onChange={(chromate) => set({ chromate })}
          />
        </section>
      </div>
      <section className="sheet stack" aria-labelledby="part-site">
        <h2 id="part-site">{words.part.site}</h2>
        <SiteForm
          site={doc.site ?? {}}
          onChange={(change) => draft.change((now) => ({ ...now, site: { ...now.site, ...change } }))}
        />
      </section>
      <div className="row apart">
        <div className="row">
          <Button variant="default" onClick={addPart} disabled={doc.parts.length >= 50}>
            {words.part.add}
          </Button>
          {doc.parts.length > 1 ? (
            <Button variant="subtle" color="gray" onClick={removePart}>
              {words.part.remove}
            </Button>
          ) : null}
        </div>
        <Button component="a" href={linkTo({ enquiryId, step: "lasers", query: { part: partId(part, index) } })}>
          {words.list.next.described}
        </Button>
      </div>
    </div>
  );
}

function Knowledge({
  label,
  value,
  onChange,
}: {
  readonly label: string;
  readonly value: KnowledgeDoc;
  readonly onChange: (value: KnowledgeDoc) => void;
}) {
  return (
    <Select
      label={label}
      data={[
        { value: "unknown", label: words.frame.unknown },
        { value: "no", label: words.frame.no },
        { value: "yes", label: words.frame.yes },
      ]}
      value={value}
      allowDeselect={false}
      w={170}
      onChange={(next) => next && onChange(next as KnowledgeDoc)}
    />
  );
}
