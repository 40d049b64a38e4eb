import type { BeamState, LaserSetup, LayerKind, Metal } from "#terms";
import { curtainNote } from "./capture.ts";
import { type Hazardous, type HazardKnowledge, hazardAction } from "./fume-flags.ts";
import { laserClass } from "./laser-class.ts";

export interface CautionsFor extends HazardKnowledge {
  readonly setup: LaserSetup;
  /** null where no setting has been chosen yet */
  readonly beam: BeamState | null;
  readonly layers: readonly LayerKind[];
  readonly metal: Metal | null;
}

const TESTS: Readonly<Record<Hazardous, string>> = {
  lead: "a lead swab or XRF",
  chromate: "a chromate swab or XRF with laboratory confirmation",
  cadmium: "XRF or a laboratory",
  asbestos: "a laboratory",
};
const NAMES: Readonly<Record<Hazardous, string>> = {
  lead: "Lead",
  chromate: "Chromate",
  cadmium: "Cadmium",
  asbestos: "Asbestos",
};
const LIGHT_METALS: ReadonlySet<string> = new Set(["aluminium", "magnesium", "titanium"]);

function substanceCautions(given: CautionsFor): string[] {
  const lines: string[] = [];
  for (const substance of ["lead", "chromate", "cadmium", "asbestos"] as const) {
    const action = hazardAction(substance, given, given.layers);
    if (action === "stop")
      lines.push(
        `${NAMES[substance]} is said to be present: stop. This is work for a specialist under the local rules for it.`,
      );
    if (action === "test first")
      lines.push(`This layer may hold ${substance}: test it (${TESTS[substance]}) before any laser work.`);
  }
  return lines;
}

function classCaution(setup: LaserSetup, beam: BeamState | null): string {
  // Without a setting the rated power speaks; a setting below class 4 does not change the class of the machine.
  const power = Math.max(setup.ratedPower, beam?.meanPower ?? 0);
  const outside = !(setup.wavelength >= 700e-9 && setup.wavelength <= 1400e-9);
  const four = outside ? power > 0.5 : laserClass(setup.wavelength, power, beam?.pulseEnergy ?? null) === "4";
  return four
    ? "Class 4 laser: the beam, its reflections and even diffuse light from the part can blind and burn. Enclose the work or clear the area."
    : "The beam and its reflections can harm eyes: have the laser safety officer confirm the class before use.";
}

/**
 * The cautions that go along with every setting, most pressing first, as short sentences. They defer to local law and
 * the laser safety officer and never call a setting harmless.
 */
export function cautionsFor(given: CautionsFor): string[] {
  const { setup, beam, layers, metal } = given;
  const nm = Math.round(setup.wavelength * 1e9);
  const lines = [
    ...substanceCautions(given),
    classCaution(setup, beam),
    "Local law, the standards themselves and your laser safety officer decide; these figures are an aid for them, not a substitute.",
    `Everyone in the laser area wears eyewear rated for ${nm} nm at the level that the laser safety officer sets; other glasses do not protect.`,
    "Extract the fume at the spot through a filter for carcinogens (dust class H, EN 60335-2-69) and keep it out of everyone's breath.",
    "Fire: clear solvents, oil, dust and other fuel from around the work, keep a fire extinguisher at hand and watch the part afterwards.",
  ];
  if (metal !== null && LIGHT_METALS.has(metal.family)) {
    lines.push(
      `Fine ${metal.family} dust can burn and explode: use extraction made for it, keep sparks away, never mix it with rust dust, and put no water on it when it burns.`,
    );
  }
  if (layers.some((kind) => kind.group === "contaminant")) {
    lines.push(
      "Films of oil or rubber can catch fire under the beam and smoke heavily: wipe off what can be wiped off first.",
    );
  }
  const curtain = curtainNote(Math.max(setup.ratedPower, beam?.meanPower ?? 0), beam?.pulseEnergy ?? null);
  if (curtain !== null) lines.push(curtain);
  lines.push(...(metal?.cautions ?? []));
  // The metal's own caution on dust says less than the line above; what begins alike is said once.
  const seen = new Set<string>();
  return lines.filter((line) => {
    const opening = line.split(":")[0] as string;
    if (seen.has(opening)) return false;
    seen.add(opening);
    return true;
  });
}
