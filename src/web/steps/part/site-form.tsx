import { Checkbox, Select, Textarea } from "@mantine/core";
import type { SiteDoc } from "../../enquiry/doc.ts";
import { MaybeNumber } from "../../show/maybe-number.tsx";
import { words } from "../../words/index.ts";

interface Props {
  readonly site: SiteDoc;
  readonly onChange: (change: Partial<SiteDoc>) => void;
}

export function SiteForm({ site, onChange }: Props) {
  return (
    <div className="stack">
      <Checkbox.Group
        label={words.part.deliveries}
        value={[...(site.deliveries ?? [])]}
        onChange={(value) => onChange({ deliveries: value as NonNullable<SiteDoc["deliveries"]> })}
        description={(site.deliveries ?? []).length === 0 ? words.frame.any : undefined}
      >
        <div className="row" style={{ marginTop: 6 }}>
          {Object.entries(words.deliveries).map(([value, label]) => (
            <Checkbox key={value} value={value} label={label} />
          ))}
        </div>
      </Checkbox.Group>
      <div className="row">
        <MaybeNumber
          label={words.part.laserPower}
          unit="W"
          value={site.laserPowerMax_W}
          emptyWords={words.part.noLimit}
          onChange={(value) => onChange({ laserPowerMax_W: value })}
        />
        <MaybeNumber
          label={words.part.electrical}
          unit="VA"
          value={site.electricalPowerMax_VA}
          emptyWords={words.part.noLimit}
          onChange={(value) => onChange({ electricalPowerMax_VA: value })}
        />
        <Select
          label={words.part.enclosed}
          data={[
            { value: "unknown", label: words.frame.unknown },
            { value: "yes", label: words.frame.yes },
            { value: "no", label: words.frame.no },
          ]}
          value={site.enclosed === true ? "yes" : site.enclosed === false ? "no" : "unknown"}
          allowDeselect={false}
          w={130}
          onChange={(value) => onChange({ enclosed: value === "unknown" ? null : value === "yes" })}
        />
      </div>
      <Textarea
        label={words.part.siteNote}
        value={site.note ?? ""}
        autosize
        minRows={2}
        onChange={(event) => onChange({ note: event.currentTarget.value })}
      />
    </div>
  );
}
