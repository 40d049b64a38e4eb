import { beamState } from "#beam";
import type { LaserSetup, Setting } from "#terms";
import { fact, type SheetFact, type SheetSection } from "./model.ts";
import { settingColumns, settingText } from "./setting-columns.ts";
import type { Speech } from "./speech.ts";

/** A setting as the panel takes it. */
export function settingSection(setup: LaserSetup, setting: Setting, speech: Speech): SheetSection {
  const said = speech.words.setting;
  const rows = settingColumns(setup.kind).map((column) =>
    fact(said[column.name], settingText(column, setting, speech)),
  );
  return { id: "setting", heading: speech.words.procedure.settingHeading, blocks: [{ kind: "strip", rows }] };
}

/** What a setting makes at the work. */
export function beamFacts(setup: LaserSetup, setting: Setting, speech: Speech): SheetFact[] {
  const said = speech.words.setting;
  const beam = beamState(setup, setting);
  return [
    fact(said.meanPower, speech.quantity("mean power", beam.meanPower, "W")),
    fact(said.spot, speech.quantity("spot", beam.spotDiameter, "um")),
  ];
}
