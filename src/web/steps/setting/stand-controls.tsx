import { Button, NativeSelect, Switch } from "@mantine/core";
import { memo, useCallback } from "react";
import { completeSetting } from "#beam";
import type { Library } from "#library";
import type { LaserSetup, Setting } from "#terms";
import { quantityText } from "../../show/quantity-text.ts";
import { useUnitSystem } from "../../show/unit-system.ts";
import { words } from "../../words/index.ts";
import { ChoiceSlider } from "./choice-slider.tsx";
import { ControlSlider } from "./control-slider.tsx";
import { type Control, carriedTo, controlsOf, controlValue, cutIn, withValue } from "./controls.ts";
import { fitted } from "./linked.ts";
import { useBest } from "./use-best.ts";
import type { Move } from "./use-stands.ts";

interface Props {
  readonly id: string;
  /** null while nothing can be computed */
  readonly partId: string | null;
  readonly library: Library;
  readonly setup: LaserSetup;
  readonly setting: Setting;
  readonly onChange: Move;
}

/** Asks the search for the best setting of this laser and takes it. */
function BestButton({ partId, setup, onChange }: Pick<Props, "setup" | "onChange"> & { readonly partId: string }) {
  const { state, find } = useBest(partId, (of, setting) => {
    // Whoever has chosen another laser meanwhile wants nothing of this one.
    if (of.id === setup.id) onChange(of, setting, "best");
  });
  return (
    <>
      <Button variant="default" onClick={() => find(setup)} disabled={state.working} style={{ alignSelf: "end" }}>
        {state.working ? words.live.bestWorking : words.live.best}
      </Button>
      {state.line ? (
        <p className="small" role="status">
          {state.line}
        </p>
      ) : null}
    </>
  );
}

/** Laser, lens, and every control with the limits that hold now. */
export const StandControls = memo(function StandControls({ id, partId, library, setup, setting, onChange }: Props) {
  useUnitSystem();
  const change = (next: Setting, cause: string) => onChange(setup, next, cause);
  const onMove = useCallback(
    (control: Control, value: number) => onChange(setup, (now) => withValue(control, now, value), control.key),
    [onChange, setup],
  );
  const cut = cutIn(setup, setting);
  const widths = setup.pulses.map((p) => p.width).toSorted((a, b) => a - b);
  return (
    <div className="stack">
      <div className="row">
        <NativeSelect
          label={words.setting.setup}
          value={setup.id}
          onChange={(e) => {
            const next = library.setup(e.currentTarget.value);
            onChange(next, carriedTo(next, setting), "laser");
          }}
          data={library.setups.map((s) => ({ value: s.id, label: s.name }))}
        />
        <NativeSelect
          label={words.setting.lens}
          value={setting.lens}
          onChange={(e) => change(fitted(setup, { ...setting, lens: e.currentTarget.value }), "lens")}
          data={setup.lenses.map((l) => ({
            value: l.id,
            label: `${quantityText(l.focalLength, "mm", 3)}, ${words.live.spot} ${quantityText(l.spotDiameter, "um", 3)}`,
          }))}
        />
        {partId === null ? null : <BestButton partId={partId} setup={setup} onChange={onChange} />}
      </div>
      {setup.modulation ? (
        <Switch
          label={words.setting.modulated}
          checked={setting.frequency !== null}
          onChange={(e) =>
            change(
              e.currentTarget.checked
                ? completeSetting(setup, { ...setting, frequency: null as never, duty: 0.5 })
                : { ...setting, frequency: null, duty: 1 },
              "modulated",
            )
          }
        />
      ) : null}
      <div className="controls">
        {setting.pulseWidth !== null && widths.length > 1 ? (
          <ChoiceSlider
            id={`${id}-width`}
            label={words.setting.pulseWidth}
            unit="ns"
            choices={widths}
            value={setting.pulseWidth}
            onChange={(pulseWidth) => change(fitted(setup, { ...setting, pulseWidth }), "pulseWidth")}
          />
        ) : null}
        {controlsOf(setup, setting).map((control) => (
          <ControlSlider
            key={control.key}
            id={id}
            control={control}
            value={controlValue(control, setting)}
            onMove={onMove}
          />
        ))}
      </div>
      {cut !== null ? <p className="small quiet">{words.setting.cutIn(quantityText(cut, "kHz", 3))}</p> : null}
    </div>
  );
});
