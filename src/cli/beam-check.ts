import { lensOf, spotDiameterAt } from "#beam";
import { beamCheckToWire, parseMarksCsv } from "#contract";
import { type BeamCheck, checkBeam, type Estimate, incubatedThreshold, type SpotGroup } from "#gauging";
import { cautionsFor } from "#safety";
import type { LaserSetup, Lens } from "#terms";
import { formatNumber, formatQuantity, formatRange, invalid, parseQuantity } from "#units";
import { readText } from "./files.ts";
import { loadLibrary } from "./load.ts";
import { cautionLines, json } from "./show.ts";

export interface BeamCheckFlags {
  readonly marks: string;
  readonly laser?: string;
  readonly lens?: string;
  readonly library?: readonly string[];
  readonly energyNoise?: string;
  readonly json?: boolean;
}

/** `beam-check`: spot and threshold from burn marks, beside what the library says. */
export async function beamCheckVerb(flags: BeamCheckFlags): Promise<string> {
  const sites = parseMarksCsv(await readText(flags.marks, "marks file"));
  const found = flags.laser === undefined ? null : await setupOf(flags.laser, flags);
  if (flags.lens !== undefined && found === null) invalid("lens", flags.lens, "", "name the laser set-up beside it");
  const energyNoise =
    flags.energyNoise === undefined ? undefined : parseQuantity(flags.energyNoise, "%", "energy noise");
  const check = checkBeam(sites, {
    ...(energyNoise === undefined ? {} : { energyNoise }),
    wavelength: found?.setup.wavelength ?? null,
  });
  const comparison = found?.lens ? compareWithLibrary(check, found.setup, found.lens) : null;
  const cautions = cautionsOf(found?.setup ?? null);
  if (flags.json) return json(beamCheckToWire(check, comparison?.wire ?? null, cautions));
  return [
    ...check.groups.flatMap((group) => groupLines(group, check.groups.length > 1)),
    ...seriesLines(check),
    ...(comparison?.lines ?? []),
    ...noted(check.cautions),
    "",
    ...cautionLines(cautions),
  ].join("\n");
}

async function setupOf(
  id: string,
  flags: BeamCheckFlags,
): Promise<{ readonly setup: LaserSetup; readonly lens: Lens | null }> {
  const setup = (await loadLibrary(flags.library)).setup(id);
  return { setup, lens: flags.lens === undefined ? null : lensOf(setup, flags.lens) };
}

const twice = (radius: Estimate): Estimate => ({
  value: 2 * radius.value,
  standardError: 2 * radius.standardError,
  low: 2 * radius.low,
  high: 2 * radius.high,
});

/** "52.1 µm (95 %: 51.0 to 53.2 µm, standard error 0.5 µm)" */
function shown(estimate: Estimate, unit: string): string {
  return `${formatQuantity(estimate.value, unit)} (95 %: ${formatRange(estimate.low, estimate.high, unit)}, standard error ${formatQuantity(estimate.standardError, unit, 2)})`;
}

const noted = (cautions: readonly string[]): string[] => cautions.map((c) => `  ! ${c}`);

function groupLines(group: SpotGroup, several: boolean): string[] {
  const { spot, ellipse } = group;
  const place = several
    ? `, ${group.pulses} ${group.pulses === 1 ? "pulse" : "pulses"} a site, defocus ${formatQuantity(group.defocus, "mm")}`
    : "";
  const blank = group.unmarked === 0 ? "" : `, ${group.unmarked} without a mark`;
  return [
    `${spot.marks.length} marks${blank}${place}`,
    `  spot diameter, 1/e²        ${shown(twice(spot.radius), "um")}`,
    ...(ellipse === null
      ? []
      : [
          `    along x                  ${shown(twice(ellipse.x.radius), "um")}`,
          `    along y                  ${shown(twice(ellipse.y.radius), "um")}`,
          `    x over y                 ${shown(ellipse.ratio, "")}`,
        ]),
    `  threshold energy           ${shown(spot.thresholdEnergy, "mJ")}`,
    `  threshold fluence, middle  ${shown(spot.thresholdFluence, "J/cm2")}`,
    `  the errors of spot and threshold energy go together (correlation ${formatNumber(spot.correlation, 2)})${
      spot.diameterScatter === null
        ? ""
        : `; one reading scatters by ${formatQuantity(spot.diameterScatter, "um", 2)} beyond the energy`
    }`,
    ...noted(group.cautions),
  ];
}

function seriesLines({ groups, incubation, focus }: BeamCheck): string[] {
  const lines: string[] = [];
  const most = Math.max(...groups.map((g) => g.pulses));
  if (incubation !== null) {
    lines.push(
      "Incubation: F_N = F_1·N^(S − 1)",
      `  S                          ${shown(incubation.exponent, "")}`,
      `  threshold of one pulse     ${shown(incubation.first, "J/cm2")}`,
      `  by this law after ${most} pulses, the most that were burned: ${formatQuantity(incubatedThreshold(incubation.first.value, most, Math.min(1.5, Math.max(0, incubation.exponent.value))), "J/cm2")}`,
    );
  }
  if (focus !== null) {
    lines.push(
      "Focus series",
      `  waist diameter, 1/e²       ${shown(twice(focus.waist), "um")}`,
      `  place of the waist         ${shown(focus.position, "mm")}`,
      `  Rayleigh length            ${shown(focus.rayleighLength, "mm")}`,
      `  M²                         ${shown(focus.beamQuality, "")}`,
    );
  }
  return lines;
}

function compareWithLibrary(check: BeamCheck, setup: LaserSetup, lens: Lens) {
  const group = check.groups.reduce((a, b) => (Math.abs(b.defocus) < Math.abs(a.defocus) ? b : a));
  const measured = check.focus === null ? twice(group.spot.radius) : twice(check.focus.waist);
  const said = check.focus === null ? spotDiameterAt(lens, group.defocus) : lens.spotDiameter;
  const ratio = measured.value / said;
  const inside = measured.low <= said && said <= measured.high;
  const entry = `"spotDiameter": ${plain(measured.value)}`;
  const length = check.focus === null ? "" : ` and "rayleighLength": ${plain(check.focus.rayleighLength.value)}`;
  const focusOnly =
    check.focus === null && group.defocus !== 0
      ? " These marks were burned out of focus: enter a spot from in focus."
      : "";
  return {
    wire: {
      laser: setup.id,
      lens: lens.id,
      spotDiameter_um: Number((said * 1e6).toPrecision(6)),
      measuredOverLibrary: Number(ratio.toPrecision(6)),
    },
    lines: [
      `Library: ${setup.name} through ${lens.id} makes ${formatQuantity(said, "um")} there; measured is ${formatNumber(ratio, 3)} of it, which makes the fluence ${formatNumber(1 / ratio ** 2, 3)} of what is reckoned${inside ? " (no more than the error of this check)" : ""}.`,
      `  To work with the measured spot: copy the set-up into a library file of your own with "replaces": true, put ${entry}${length} (metres) into its lens ${lens.id}, and hand it in with --library.${focusOnly}`,
      ...(setup.profile === "gaussian"
        ? []
        : ["  ! This set-up is entered as a flat beam: marks on a Gaussian's law are no measure of its spot."]),
    ],
  };
}

const plain = (value: number): string => String(Number(value.toPrecision(4)));

function cautionsOf(setup: LaserSetup | null): string[] {
  const own =
    "Burning marks runs the beam at full pulse energy on bare metal: the reflections are as dangerous as the beam.";
  if (setup === null)
    return [
      own,
      "Class 4 lasers, fume and fire can maim: local law and the laser safety officer decide before anything is burned.",
    ];
  return [own, ...cautionsFor({ setup, beam: null, layers: [], metal: null, lead: "no", chromate: "no" })];
}
