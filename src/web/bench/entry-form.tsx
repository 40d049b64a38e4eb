import { Button, TextInput } from "@mantine/core";
import { useState } from "react";
import { toSI } from "#units";
import { words } from "../words/index.ts";
import type { EntryChange } from "./make-entry.ts";

export type FormKind = "skip" | "note" | "temperature";

interface Props {
  readonly kind: FormKind;
  readonly patch: number | null;
  readonly onKeep: (change: EntryChange) => Promise<boolean>;
  readonly onClose: () => void;
}

const say = words.bench;
const wording = {
  skip: { label: say.skipWhy, save: say.skipSave },
  note: { label: say.noteWhat, save: say.noteSave },
  temperature: { label: say.temperatureWhat, save: say.temperatureSave },
};

/** K of what was typed in °C; null for what is no plate's temperature. */
function readTemperature(text: string): number | null {
  const value = Number(text.trim().replace(",", "."));
  return text.trim() !== "" && value >= -60 && value <= 1500 ? toSI(value, "degC") : null;
}

/** Once, when the field appears. One function for all times: another would take the focus back whenever the clock ticks. */
const focus = (input: HTMLInputElement | null): void => input?.focus();

/** One line to type: why a patch is skipped, a note, the temperature of the plate. */
export function EntryForm({ kind, patch, onKeep, onClose }: Props) {
  const [text, setText] = useState("");
  const kelvin = kind === "temperature" ? readTemperature(text) : null;
  const fits = kind === "temperature" ? kelvin !== null : text.trim() !== "";
  const keep = async (): Promise<void> => {
    if (!fits) return;
    const change: EntryChange =
      kind === "temperature"
        ? { kind, patch, plateTemperature: kelvin }
        : { kind: kind === "skip" ? "skipped" : "note", patch, note: text.trim() };
    if (await onKeep(change)) onClose();
  };
  return (
    <form
      className="stack tight entry-form"
      onSubmit={(event) => {
        event.preventDefault();
        void keep();
      }}
    >
      <TextInput
        label={wording[kind].label}
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
        onKeyDown={(event) => event.key === "Escape" && onClose()}
        inputMode={kind === "temperature" ? "decimal" : "text"}
        error={kind === "temperature" && text.trim() !== "" && !fits ? say.temperatureWrong : undefined}
        maxLength={kind === "temperature" ? 10 : 2000}
        size="md"
        data-autofocus
        ref={focus}
      />
      <div className="row">
        <Button type="submit" size="md" disabled={!fits}>
          {wording[kind].save}
        </Button>
        <Button type="button" size="md" variant="default" onClick={onClose}>
          {say.cancel}
        </Button>
      </div>
    </form>
  );
}
