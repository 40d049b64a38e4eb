import type { Joule, Metre } from "#terms";
import { formatQuantity, invalid } from "#units";
import { fitSpot, type SpotFit } from "./burn-marks.ts";
import { type EllipticalFit, fitEllipticalSpot } from "./elliptical.ts";
import { type FocusFit, fitFocus } from "./focus-series.ts";
import { fitIncubation, type IncubationFit } from "./incubation.ts";
import { type Misfit, misfitOf } from "./misfit.ts";

/** One site of a burn plate. */
export interface BurnSite {
  readonly energy: Joule;
  /** 0 where no mark was left */
  readonly diameterX: Metre;
  /** null where marks are read as round */
  readonly diameterY: Metre | null;
  readonly uncertainty: Metre | null;
  /** pulses on this site */
  readonly pulses: number;
  readonly defocus: Metre;
}

/** Spot of one number of pulses at one place along the beam. */
export interface SpotGroup {
  readonly pulses: number;
  readonly defocus: Metre;
  /** sites without a mark */
  readonly unmarked: number;
  readonly spot: SpotFit;
  readonly ellipse: EllipticalFit | null;
  readonly misfit: Misfit;
  /** findings on this group, misfit included */
  readonly cautions: readonly string[];
}

export interface BeamCheck {
  readonly groups: readonly SpotGroup[];
  /** null unless pulse numbers vary */
  readonly incubation: IncubationFit | null;
  /** null unless places along the beam vary and the wavelength is known */
  readonly focus: FocusFit | null;
  readonly cautions: readonly string[];
}

/**
 * Beam check of a burn plate: sites grouped by pulses and place along the beam, a spot for each group (`fitSpot`), an
 * incubation fit over pulses (3 numbers or more), a focus series over places (4 or more).
 * @param sites as read, SI
 * @param options `energyNoise` (1), see `fitSpot`; `wavelength` (m) for the focus series, null when not known
 * Throws InvalidInput for groups that give no spot, and where pulses and place vary in one plate.
 */
export function checkBeam(
  sites: readonly BurnSite[],
  options: { readonly energyNoise?: number; readonly wavelength: Metre | null },
): BeamCheck {
  const keys = new Map<string, BurnSite[]>();
  for (const site of sites) {
    const key = `${site.pulses} ${site.defocus}`;
    keys.set(key, [...(keys.get(key) ?? []), site]);
  }
  const groups = [...keys.values()]
    .map((group) => spotGroup(group, options.energyNoise))
    .sort((a, b) => a.pulses - b.pulses || a.defocus - b.defocus);
  const pulses = new Set(groups.map((g) => g.pulses)).size;
  const places = new Set(groups.map((g) => g.defocus)).size;
  if (pulses > 1 && places > 1)
    invalid("burn marks", `${pulses} pulse numbers, ${places} places`, "", "vary one of them in a file, not both");
  const cautions: string[] = [];
  if (pulses === 2)
    cautions.push("An incubation fit needs three pulse numbers or more: only the thresholds are given.");
  if (places > 1 && places < 4)
    cautions.push("A focus series needs four places along the beam or more: only the spots are given.");
  if (places > 3 && options.wavelength === null)
    cautions.push("Name the laser set-up to have waist, Rayleigh length and M² from these places.");
  const behind = groups.reduce((sum, { spot }) => sum + spot.line.degreesOfFreedom, 0);
  const incubation =
    pulses > 2
      ? fitIncubation(
          groups.map(({ pulses: n, spot }) => ({
            pulses: n,
            threshold: spot.thresholdFluence.value,
            standardError: spot.thresholdFluence.standardError,
          })),
          behind,
        )
      : null;
  if (incubation !== null && incubation.misfit < 0.01)
    cautions.push(
      "The thresholds do not follow one power of the pulse number: do not extrapolate beyond those burned.",
    );
  const focus =
    places > 3 && options.wavelength !== null
      ? fitFocus(
          groups.map(({ defocus, spot }) => ({
            defocus,
            radius: spot.radius.value,
            standardError: spot.radius.standardError,
          })),
          options.wavelength,
          behind,
        )
      : null;
  return { groups, incubation, focus, cautions: [...cautions, ...(focus?.cautions ?? [])] };
}

function spotGroup(sites: readonly BurnSite[], energyNoise: number | undefined): SpotGroup {
  const { pulses, defocus } = sites[0]!;
  const marked = sites.filter((site) => site.diameterX > 0);
  const ellipses = marked.filter((site) => site.diameterY !== null).length;
  if (ellipses > 0 && ellipses < marked.length) invalid("second diameter", "missing", "", "every mark or none");
  const ellipse =
    ellipses > 0
      ? fitEllipticalSpot(
          marked.map((site) => ({ ...site, diameterY: site.diameterY! })),
          energyNoise,
        )
      : null;
  const spot =
    ellipse?.round ??
    fitSpot(
      marked.map(({ energy, diameterX, uncertainty }) => ({ energy, diameter: diameterX, uncertainty })),
      energyNoise,
    );
  const misfit = misfitOf(spot);
  const cautions = [...misfit.words];
  const unmarked = sites.filter((site) => site.diameterX === 0);
  const missing = unmarked.filter((site) => site.energy > spot.thresholdEnergy.high * 1.03);
  if (missing.length > 0) {
    cautions.push(
      `${missing.length} ${missing.length === 1 ? "site" : "sites"} above the threshold of ${formatQuantity(spot.thresholdEnergy.value, "mJ")} show no mark: look again, or the threshold is not sharp.`,
    );
  }
  const smallest = Math.min(...marked.map((site) => site.energy));
  const largest = Math.max(...marked.map((site) => site.energy));
  if (smallest > 2.5 * spot.thresholdEnergy.value)
    cautions.push("No mark was burned below 2.5 thresholds: the threshold is extrapolated, burn weaker ones too.");
  if (largest < 3 * smallest)
    cautions.push("The energies span less than a factor of three: spot and threshold hang on each other.");
  if (ellipse !== null && ellipse.sameThreshold < 0.01)
    cautions.push("The two axes speak of different thresholds: they are not the axes of one Gaussian beam.");
  return { pulses, defocus, unmarked: unmarked.length, spot, ellipse, misfit, cautions };
}
