import { Checkbox, Select } from "@mantine/core";
import { changeLayer, type LayerDoc, type PartDoc } from "../../enquiry/doc.ts";
import { useLibrary } from "../../library/use-library.ts";
import { MaybeNumber, WordButton } from "../../show/maybe-number.tsx";
import { words } from "../../words/index.ts";
import { colourChoices, colourValue, kindChange, kindChoices, kindValue, layerName } from "./layer-choices.ts";

interface Props {
  readonly part: PartDoc;
  readonly onChange: (change: Partial<PartDoc>) => void;
}

export function LayerRows({ part, onChange }: Props) {
  const library = useLibrary();
  const layers = part.layers ?? [];
  const set = (index: number, change: Partial<LayerDoc>) => onChange(changeLayer(part, index, change));
  const move = (index: number, by: number) => {
    const next = [...layers];
    const [taken] = next.splice(index, 1);
    if (taken) next.splice(index + by, 0, taken);
    onChange({ layers: next });
  };
  const add = () =>
    onChange({
      layers: [{ kind: "unknown", group: "coating", colour: "unknown", thickness_um: "unknown" }, ...layers],
    });
  return (
    <div className="stack tight">
      {layers.length === 0 ? <p className="quiet">{words.part.bare}</p> : null}
      {layers.map((layer, index) => (
        <fieldset key={index} className="layer-row">
          <legend className="quiet small">{`${words.part.layer(index + 1)}: ${layerName(library, layer)}`}</legend>
          <div className="row">
            <Select
              label={words.part.kind}
              data={kindChoices(library)}
              value={kindValue(layer)}
              onChange={(value) => value && set(index, kindChange(library, value))}
              searchable
              allowDeselect={false}
              w={218}
            />
            <Select
              label={words.part.colour}
              data={colourChoices(library, layer)}
              value={colourValue(library, layer)}
              onChange={(value) => value && set(index, { colour: value as NonNullable<LayerDoc["colour"]> })}
              allowDeselect={false}
              w={116}
            />
            <MaybeNumber
              label={words.part.layerThickness}
              unit="µm"
              value={layer.thickness_um}
              emptyWords={words.part.setUnknown}
              max={20000}
              width={118}
              onChange={(value) => set(index, { thickness_um: value ?? "unknown" })}
            />
            <MaybeNumber
              label={words.part.spread}
              unit="%"
              value={layer.thicknessSpread_percent}
              emptyWords="15 %"
              max={200}
              width={82}
              onChange={(value) => set(index, spreadOf(value))}
            />
            <Checkbox
              label={words.part.mustStay}
              checked={layer.mustStay ?? false}
              onChange={(event) => set(index, { mustStay: event.currentTarget.checked })}
              pb={8}
            />
          </div>
          <div className="row">
            <WordButton onClick={() => move(index, -1)} disabled={index === 0}>
              {words.part.up}
            </WordButton>
            <WordButton onClick={() => move(index, 1)} disabled={index === layers.length - 1}>
              {words.part.down}
            </WordButton>
            <WordButton onClick={() => onChange({ layers: layers.filter((_, i) => i !== index) })}>
              {words.part.removeLayer}
            </WordButton>
          </div>
        </fieldset>
      ))}
      <div>
        <WordButton onClick={add} disabled={layers.length >= 8}>
          {words.part.addLayer}
        </WordButton>
      </div>
    </div>
  );
}

/** `undefined` leaves the file once it is written, so the contract's own default holds again. */
function spreadOf(value: number | null): Partial<LayerDoc> {
  return { thicknessSpread_percent: value ?? undefined } as Partial<LayerDoc>;
}
