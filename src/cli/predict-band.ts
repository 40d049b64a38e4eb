import type { BandPlace, FaceBand } from "#patch";
import type { LaserSetup, Setting } from "#terms";
import { formatQuantity, formatRange, invalid, parseQuantity } from "#units";
import { answerOnBand, type BandAnswer, curvedFaces, type PartModel } from "#workflows";

export interface BandFlags {
  readonly defocusBand?: string;
  readonly angle?: string;
}

/** Swing of defocus and largest angle that were asked for, m and rad; null where nothing was. */
export interface AskedBand {
  readonly swing: number | null;
  readonly angle: number | null;
}

const ANGLE_MAX = 75;
const SWING_MAX = 100;

export function readBand(flags: BandFlags): AskedBand {
  const read = (text: string | undefined, unit: string, name: string, most: number) => {
    if (text === undefined) return null;
    const value = parseQuantity(text, unit, name);
    if (value < 0 || value > parseQuantity(most, unit, name) * (1 + 1e-12))
      invalid(name, text, /^[-+.\de]+$/i.test(text.trim()) ? unit : "", `0 to ${most} ${unit}`);
    return value;
  };
  return {
    swing: read(flags.defocusBand, "mm", "defocus band", SWING_MAX),
    angle: read(flags.angle, "deg", "angle", ANGLE_MAX),
  };
}

/** Best and worst where a band was asked for, and on every curved face of the part. */
export function bandLines(model: PartModel, setup: LaserSetup, setting: Setting, asked: AskedBand): string[] {
  const swing = asked.swing ?? 0;
  const lines: string[] = [];
  if (asked.swing !== null || asked.angle !== null) {
    const band: FaceBand = {
      defocus: { low: setting.defocus - swing, high: setting.defocus + swing },
      angle: { low: 0, high: asked.angle ?? 0 },
    };
    lines.push("", `Band as asked: ${bandText(band)}`, ...answerLines(answerOnBand(model, setup, setting, band)));
  }
  for (const { face, width, narrowed, band } of curvedFaces(model, setup, setting, swing)) {
    const title = `${face.kind} face of radius ${formatQuantity(face.radius, "mm")}${face.note ? ` (${face.note})` : ""}`;
    const tight = face.kind === "concave" && (face.radius as number) < setup.smallestConcaveRadius;
    const reach = `${formatQuantity(width, "mm", 3)} wide${narrowed ? ", beyond which the head has to be turned" : ""}`;
    lines.push(
      "",
      `On the ${title}, ${reach}: ${bandText(band)}`,
      ...answerLines(answerOnBand(model, setup, setting, band)),
      ...(tight
        ? [`  note: the head reaches into radii from ${formatQuantity(setup.smallestConcaveRadius, "mm")} only.`]
        : []),
    );
  }
  return lines;
}

function bandText({ defocus, angle }: FaceBand): string {
  return `defocus ${formatRange(defocus.low, defocus.high, "mm", 3)}, up to ${formatQuantity(angle.high, "deg", 2)} from the normal`;
}

function answerLines(answer: BandAnswer): string[] {
  const at = (p: BandPlace) => `at defocus ${formatQuantity(p.defocus, "mm", 3)}, ${formatQuantity(p.angle, "deg", 2)}`;
  const residue = (p: BandPlace) => `${formatQuantity(p.result.residueFraction, "%", 2)} ${at(p)}`;
  const hot = (p: BandPlace) =>
    `${formatQuantity(p.result.metalPeakTemperature, "degC", 3)} with ${formatQuantity(p.result.meltDepth, "um", 2)} of melt ${at(p)}`;
  return [
    `  residue         best ${residue(answer.cleanest)}; worst ${residue(answer.dirtiest)}`,
    `  metal           gentlest ${hot(answer.gentlest)}; harshest ${hot(answer.harshest)}`,
    `  everywhere on it  clean in ${Math.round(100 * answer.cleanEverywhere)} of 100 versions of the physics, undamaged in ${Math.round(100 * answer.undamagedEverywhere)} of 100`,
    "  note: best and worst are those of the central version; light absorbed as at normal incidence.",
  ];
}
