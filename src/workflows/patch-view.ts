import { checkSetting } from "#beam";
import {
  type LookLayer,
  metalTone,
  type PatchLook,
  type PatchMap,
  type PatchPicture,
  type PatchPlan,
  patchMap,
  patchPicture,
  predictPatch,
  tintWord,
  type Turns,
} from "#patch";
import type { Kelvin, LaserSetup, Metre, Setting } from "#terms";
import { formatQuantity, formatRange, fromSI, invalid, requireInteger } from "#units";
import type { PartModel } from "./part-model.ts";
import { PATCH_SIDE, planOf } from "./predict.ts";

export interface PatchViewOptions {
  /** of the texture: which weak and strong places the picture shows */
  readonly seed: number;
  /** m, side of the square patch; left out: 30 spot radii, at most the trial patch */
  readonly side?: Metre;
  /** most cells along a side, for a quick look; left out: as many as the picture is worth */
  readonly cells?: number;
  /** how the scanner turns round; left out: beyond the patch with the beam off */
  readonly turns?: Turns;
}

/** A patch as one version of the physics predicts it. */
export interface PatchView {
  readonly side: Metre;
  readonly turns: Turns;
  readonly map: PatchMap;
  readonly picture: PatchPicture;
  /** word for the tint of the thickest oxide amid the patch, or why there is none */
  readonly tint: string;
  readonly caveats: readonly string[];
}

/** Cells per spot radius, largest number of cells along a side, and pixels along a side aimed at. */
const CELLS_PER_RADIUS = 5;
const CELLS_MOST = 500;
const PIXELS = 720;
/** Pixels of a quick look, which a page draws larger. */
const QUICK_PIXELS = 240;
const RADII = 30;
const QUICK_RADII = 12;

/**
 * Map and picture of a whole patch in the central version of the physics, its line starts and ends included.
 *
 * Units: side m. Range: side from one spot radius to the trial patch (the plan's warming is that of the trial patch, so
 * a smaller patch is shown hotter than it would be). Errors: InvalidInput for a setting that the set-up cannot run, and
 * for sizes out of range. Source: `patchMap`, `patchPicture`.
 */
export function patchView(model: PartModel, setup: LaserSetup, setting: Setting, options: PatchViewOptions): PatchView {
  checkSetting(setup, setting);
  if (options.cells !== undefined) requireInteger("cells along a side", options.cells, 8, CELLS_MOST);
  const plan = planOf(model, setup, setting);
  const radius = plan.beam.spotDiameter / 2;
  const radii = options.cells === undefined ? RADII : QUICK_RADII;
  const side = options.side ?? Math.min(PATCH_SIDE, Math.max(radii * radius, 6 * setting.lineSpacing));
  const least = Math.min(radius, PATCH_SIDE);
  if (!(side >= least && side <= PATCH_SIDE))
    invalid("side of the patch", fromSI(side, "mm"), "mm", formatRange(least, PATCH_SIDE, "mm", 2));
  const step = cellSide(side, radius, setting.lineSpacing, options.cells ?? CELLS_MOST);
  const cells = Math.max(1, Math.floor(side / step + 1e-9));
  const turns = options.turns ?? "outside, beam off";
  const map = patchMap(model.central, plan, {
    width: side,
    height: side,
    turns,
    grid: { columns: cells, rows: cells, step, x0: step / 2, y0: step / 2 },
  });
  const ramp = setting.speed ** 2 / (2 * setup.acceleration);
  const pixels = options.cells === undefined ? PIXELS : Math.min(PIXELS, QUICK_PIXELS);
  const scale = Math.min(16, Math.max(1, Math.round(pixels / cells)));
  const look = lookOf(model);
  const { metal } = model.stack;
  const { oxide, peak } = map.figures.interior ?? map.figures.whole;
  return {
    side,
    turns,
    map,
    picture: patchPicture(map, look, options.seed, scale),
    tint: look.family === null ? "the metal is under a layer that stays" : tintWord(metal.family, oxide),
    caveats: [
      ...viewCaveats(model, side, radius / step),
      ...reachCaveats(model, peak, turns, side / ramp),
      ...stayCaveats(model, plan),
    ],
  };
}

/**
 * Side of a cell: a whole number of cells to a line spacing, because others would beat with the lines and show stripes
 * that are not there; m.
 */
function cellSide(side: Metre, radius: Metre, spacing: Metre, most: number): Metre {
  const coarsest = side / most;
  const wanted = Math.min(side / 8, Math.max(coarsest, Math.min(radius / CELLS_PER_RADIUS, spacing / 4)));
  return spacing > wanted ? spacing / Math.ceil(spacing / wanted - 1e-9) : wanted;
}

/** What the stack looks like: tones of the library, of the heaviest stack where it is not fully known. */
function lookOf({ stack, central }: PartModel): PatchLook {
  const { off, thickness } = central.strip;
  const tone = (at: number) => {
    const { kind, colour } = stack.layers[at]!;
    return kind.appearance[colour] ?? Object.values(kind.appearance)[0] ?? "#8c8c88";
  };
  const layers: LookLayer[] = off.map((layer, i) => ({
    name: stack.layers[i]!.kind.name.toLowerCase(),
    colour: tone(i),
    share: layer.thickness / thickness,
  }));
  const staying = stack.layers[off.length];
  return staying
    ? { under: tone(off.length), underName: `${staying.kind.name.toLowerCase()} that stays`, layers, family: null }
    : { under: metalTone(stack.metal.id), underName: "bare metal", layers, family: stack.metal.family };
}

function viewCaveats(model: PartModel, side: Metre, cellsPerRadius: number): string[] {
  const lines = [
    "A picture of one version of the physics, the central one: never a proof, and no photograph. Other versions look different; predict gives their spread.",
    `A patch of ${formatQuantity(side, "mm", 2)} square, warmed as the ${formatQuantity(PATCH_SIDE, "mm", 2)} trial patch would be; on a larger patch its rim counts for less.`,
    "Where the layer holds within a place is drawn by chance from the seed; only its share of the area is predicted.",
  ];
  if (model.part.mixture.length > 1)
    lines.push(`The stack is not fully known: of ${model.part.mixture.length} possible stacks the likeliest is shown.`);
  if (cellsPerRadius < 2)
    lines.push(
      "The spot is smaller than two cells of the picture: stripes and pulses may be hidden; ask for a smaller patch.",
    );
  return lines;
}

/** What lies beyond the laws that the picture rests on. */
function reachCaveats({ stack }: PartModel, peak: Kelvin, turns: Turns, ramps: number): string[] {
  const lines: string[] = [];
  const growth = stack.metal.oxideGrowth;
  if (growth !== null && peak > growth.fittedTo)
    lines.push(
      `The growth of ${growth.oxide} was measured up to ${formatQuantity(growth.fittedTo, "degC", 3)}; the metal gets hotter here, so that oxide thickness and tint are a rough guide.`,
    );
  if (turns !== "outside, beam off" && ramps < 4)
    lines.push("The lines are so short that the scanner hardly reaches its speed; ask for a larger patch.");
  return lines;
}

/** A layer that stays is drawn whole; what became of it is said in words. */
function stayCaveats({ central, part }: PartModel, plan: PatchPlan): string[] {
  if (central.strip.stay.length === 0) return [];
  const { stayLayerHarmed } = predictPatch(central, plan, part.acceptance);
  return [
    `The layer that stays is drawn whole; in this version of the physics ${formatQuantity(stayLayerHarmed, "%", 2)} of its area is lost or harmed.`,
  ];
}
