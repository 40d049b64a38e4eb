import { completeSetting } from "#beam";
import { parseEnquiryFile, parseSetting, trialToWire } from "#contract";
import { couponDefault, designNames, patchDefault } from "#trial";
import { invalid, requireOneOf } from "#units";
import { partCautions, photoPathOf, photoPathWords, planTrial, type PlanTrialOptions, surveySetup } from "#workflows";
import { readJson } from "./files.ts";
import { type GuideFlags, guideOf } from "./plan-guide.ts";
import { keepIn } from "./keeper.ts";
import { carriedNotes, knownBeliefs } from "./known.ts";
import { loadPart, modelOf, type PhysicsFlags } from "./load.ts";
import { cautionLines, json } from "./show.ts";
import { writeSheets } from "./write-sheets.ts";

export interface PlanFlags extends PhysicsFlags, GuideFlags {
  readonly laser: string;
  readonly setting?: string;
  readonly patches: number;
  readonly repeats?: number;
  readonly design: string;
  readonly faceCentred?: boolean;
  readonly gapLimit?: string;
  readonly coupon?: string;
  readonly patch?: string;
  readonly gap?: string;
  readonly rim?: string;
  readonly id?: string;
  readonly out: string;
  readonly data?: string;
}

/** Reads "150x100" in mm into metres. */
function sizeOf(name: string, text: string): { width: number; height: number } {
  const [width, height, ...rest] = text.trim().split(/\s*[x×]\s*/i);
  if (width === undefined || height === undefined || rest.length > 0)
    return invalid(name, text, "mm", "width x height, for example 150x100");
  return { width: lengthOf(`${name} width`, width), height: lengthOf(`${name} height`, height) };
}

/** Reads a number of a unit as it is typed. */
function numberOf(name: string, text: string, unit: string, least: "above 0" | "0 or more" = "above 0"): number {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!Number.isFinite(value) || value < 0 || (value === 0 && least === "above 0"))
    return invalid(name, text, unit, `a number, ${least}`);
  return value;
}

/** Reads mm into metres. */
function lengthOf(name: string, text: string, least: "above 0" | "0 or more" = "above 0"): number {
  return numberOf(name, text, "mm", least) / 1e3;
}

/** The options of a plan that say which design and how the patches lie. */
function layoutOptions(flags: PlanFlags) {
  const size = flags.coupon === undefined ? couponDefault : sizeOf("coupon", flags.coupon);
  const design = requireOneOf("design", flags.design, designNames);
  if (flags.faceCentred && design !== "central-composite")
    invalid("face-centred", design, "", "only goes with the design central-composite");
  return {
    design,
    ...(flags.faceCentred ? { axial: "face" as const } : {}),
    ...(flags.gapLimit === undefined ? {} : { gapLimit: numberOf("gap limit", flags.gapLimit, "K") }),
    patch: flags.patch === undefined ? patchDefault : sizeOf("patch", flags.patch),
    coupon: {
      width: size.width,
      height: size.height,
      rim: flags.rim === undefined ? couponDefault.rim : lengthOf("rim", flags.rim, "0 or more"),
      gap: flags.gap === undefined ? couponDefault.gap : lengthOf("gap", flags.gap, "0 or more"),
    },
  };
}

/** `plan`: the patches of a trial and the sheets to burn them from. */
export async function planVerb(flags: PlanFlags): Promise<string> {
  const layout = layoutOptions(flags);
  const { library, enquiry, part } = await loadPart(flags);
  const setup = library.setup(flags.laser);
  const model = modelOf(part, flags, await knownBeliefs(flags.known));
  const given =
    flags.setting === undefined
      ? null
      : completeSetting(setup, parseSetting(await readJson(flags.setting, "setting"), setup));
  const centre =
    given ??
    surveySetup(model, setup, enquiry.site, null).best?.setting ??
    invalid("laser", setup.id, "", "no setting of it fits the limits of the site");
  const asked: PlanTrialOptions = {
    id: flags.id ?? `${part.id}-${setup.id}`,
    enquiryId: enquiry.id,
    centre,
    count: flags.patches,
    ...layout,
    ...(flags.repeats === undefined ? {} : { replicates: flags.repeats }),
    seed: flags.seed,
  };
  // Planned once without the physics' own list, so that what does not fit is refused before the long work.
  const first = planTrial(model, setup, asked);
  const guide = layout.design === "physics-guided" ? guideOf(model, setup, first, given, flags) : null;
  const trial = guide === null ? first : planTrial(model, setup, { ...asked, guided: guide.settings });
  const cautions = partCautions(part, setup, centre);
  const carried = carriedNotes(flags.known, model);
  const photographs = photoPathWords(photoPathOf(part));
  const reasons = [...trial.reasons, ...(guide?.words ?? []), ...carried, ...photographs];
  const wire = trialToWire({ ...trial, reasons }, cautions);
  const sheets = await writeSheets(flags.out, trial, setup, part, cautions, wire, {
    customer: enquiry.customer,
    invented: enquiry.invented,
  });
  if (flags.data) {
    const file = parseEnquiryFile(await readJson(flags.enquiry, "enquiry"));
    await keepIn(flags.data, async (keeper) => {
      await keeper.putTrial(wire);
      await keeper.keepEnquiry(file);
    });
  }
  if (flags.json) return json(wire);
  return [
    `Trial ${trial.id}: ${trial.patches.length} patches on ${trial.coupons.length} coupon(s) for ${setup.name}`,
    ...[...wire.reasons, ...sheets.words].map((r) => `  ${r}`),
    "",
    ...sheets.files.map((f) => `wrote ${f}`),
    "",
    ...cautionLines(cautions),
  ].join("\n");
}
