import type { LaserSetup } from "#terms";
import { invalid } from "#units";
import { type MapAxes, type MapControl, mapControls } from "#workflows";

const plain = (name: string): string => name.toLowerCase().replace(/[\s_-]/g, "");

/** The control that is meant: as fields are called (lineSpacing) or as people write it (line spacing, line-spacing). */
function controlOf(text: string, whole: string): MapControl {
  const names = Object.keys(mapControls) as MapControl[];
  return (
    names.find((name) => plain(name) === plain(text)) ??
    invalid("map", whole, "", `two of ${names.join(", ")}, for example speed,lineSpacing`)
  );
}

/** Reads "speed,lineSpacing". Throws InvalidInput for names that there are not and for what the set-up does not have. */
export function readMapAxes(text: string, setup: LaserSetup): MapAxes {
  const names = text.split(",");
  const [x, y] = [controlOf(names[0]!, text), controlOf(names[1] ?? "", text)];
  if (names.length !== 2 || x === y) invalid("map", text, "", "two different controls, for example speed,lineSpacing");
  for (const control of [x, y]) {
    if (control === "pulseWidth" && setup.pulses.length < 2)
      invalid("map", text, "", `${setup.id} offers no pulse widths to choose from`);
    if (control === "frequency" && setup.kind === "continuous" && setup.modulation === null)
      invalid("map", text, "", `${setup.id} cannot be modulated`);
    if (control === "duty" && setup.modulation === null) invalid("map", text, "", `${setup.id} has no duty to vary`);
    if (control === "defocus" && !(setup.defocusMax > 0)) invalid("map", text, "", `${setup.id} stays in focus`);
  }
  return { x, y };
}
