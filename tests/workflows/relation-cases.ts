import { layerKind, metal, setup } from "#library";
import { Draw, type MetalAnswers, type PatchPlan, predictPatch } from "#patch";
import type { Kernel, KernelNode } from "#removal";
import type { ColourClass, LaserSetup, PartEnquiry, PatchResult, Setting } from "#terms";
import { createPartModel, type PartModel, planOf } from "#workflows";

export const DRAWS = 200;
export const SEED = 11;

/** Metals solved once for the whole file. */
export const answers = new Map<string, MetalAnswers>();

/** A part with one known layer; thickness in µm, spread 15 % either way. */
export function partOf(
  metalId: string,
  layers: readonly (readonly [string, ColourClass, number])[],
  metalConditionMax: 0 | 1 | 2 = 1,
): PartEnquiry {
  return {
    id: metalId,
    name: metalId,
    material: metalId,
    mixture: [
      {
        weight: 1,
        assumption: "",
        stack: {
          metal: metal(metalId),
          metalThickness: 5e-3,
          layers: layers.map(([kind, colour, um]) => ({
            kind: layerKind(kind),
            colour,
            thickness: { ...layerKind(kind).usualThickness, value: um * 1e-6, low: um * 0.85e-6, high: um * 1.15e-6 },
            mustStay: false,
          })),
        },
      },
    ],
    area: 2,
    count: 10,
    faces: [],
    acceptance: { residueMax: 0.05, metalConditionMax, metalTemperatureMax: null, tests: [], confidence: 0.8 },
    rateWanted: null,
    lead: "no",
    chromate: "no",
    unknowns: [],
  };
}

export function modelOf(metalId: string, layers: readonly (readonly [string, ColourClass, number])[]): PartModel {
  return createPartModel(partOf(metalId, layers), { seed: SEED, drawCount: DRAWS, answers });
}

/** Layers that are mostly thrown off from below, each on another metal; the mid-coloured ones are partly eaten. */
export const thrownOff = (): PartModel[] => [
  modelOf("aluminium-5083", [["polyurethane-topcoat", "white", 40]]),
  modelOf("steel-low-carbon", [["alkyd", "mid", 35]]),
  modelOf("stainless-304", [["acrylic", "mid", 30]]),
];

/** White layers: so much light reaches the metal that nothing is eaten from above first. */
export const whiteLayers = (): PartModel[] => [
  modelOf("aluminium-5083", [["polyurethane-topcoat", "white", 40]]),
  modelOf("steel-low-carbon", [["alkyd", "white", 35]]),
  modelOf("stainless-304", [["acrylic", "white", 30]]),
];

/** The library's 200 W pulsed set-up with enough energy at 30, 100 and 200 ns that mean power is really fixed. */
export const pulsedSource: LaserSetup = {
  ...setup("pulsed-200"),
  pulses: [30e-9, 100e-9, 200e-9].map((width) => ({ width, energyMax: 10e-3, frequencyMax: 1e6 })),
  frequencyMax: 1e6,
};
export const continuousSource = setup("continuous-1000");

const lens = pulsedSource.lenses[1];

/** 100 W in the 0.23 mm spot, 25 kHz (4 mJ), half overlap along the line and between the lines. */
export const pulsedBase: Setting = {
  power: 100,
  level: 1,
  duty: 1,
  frequency: 25e3,
  pulseWidth: 100e-9,
  speed: 0.5 * lens.spotDiameter * 25e3,
  lineSpacing: 0.5 * lens.spotDiameter,
  passes: 1,
  defocus: 0,
  lens: lens.id,
};

export type Runner = (draw: Draw, scale?: number) => PatchResult;

/** How a setting answers on each draw; `alter` is where a test switches a mechanism off. */
export function runner(
  model: PartModel,
  source: LaserSetup,
  setting: Setting,
  alter: (plan: PatchPlan) => PatchPlan = (plan) => plan,
): Runner {
  const plan = alter(planOf(model, source, setting));
  return (draw, scale = 1) => predictPatch(draw, plan, model.part.acceptance, scale);
}

/** ln of the power factor at which 5 % of the area keeps residue; ±4 where no power in that span does. */
export function removalEdge(run: Runner, draw: Draw): number {
  let low = -4;
  let high = 4;
  for (let i = 0; i < 13; i++) {
    const middle = (low + high) / 2;
    if (run(draw, Math.exp(middle)).residueFraction <= 0.05) high = middle;
    else low = middle;
  }
  return high;
}

export function share(draws: readonly Draw[], holds: (draw: Draw) => boolean): number {
  return draws.filter(holds).length / draws.length;
}

/** A version of the physics with some of its parts replaced. */
export class AlteredDraw extends Draw {
  readonly #alter: (kernel: Kernel) => Kernel;
  readonly #durationOf: (duration: number) => number;
  readonly #done = new Map<Kernel, Kernel>();

  constructor(draw: Draw, alter: (kernel: Kernel) => Kernel, durationOf: (duration: number) => number = (d) => d) {
    super(draw.sample, { ...(answers.get(draw.sample.metal.metalId) as MetalAnswers) });
    this.#alter = alter;
    this.#durationOf = durationOf;
  }

  override kernel(duration: number, shape: "square" | "gaussian"): Kernel {
    const kernel = super.kernel(this.#durationOf(duration), shape);
    let altered = this.#done.get(kernel);
    if (!altered) {
      altered = this.#alter(kernel);
      this.#done.set(kernel, altered);
    }
    return altered;
  }
}

export function withNodes(kernel: Kernel, change: (node: KernelNode) => KernelNode): Kernel {
  return { ...kernel, nodes: kernel.nodes.map(change) };
}

/** The same version of the physics with its layers changed. */
export function withLayers(
  draw: Draw,
  change: (layer: Draw["sample"]["layers"][number]) => Draw["sample"]["layers"][number],
): Draw {
  return new Draw(
    { ...draw.sample, layers: draw.sample.layers.map(change) },
    answers.get(draw.sample.metal.metalId) as MetalAnswers,
  );
}

/** The same version of the physics in which melt is as deep as a 100 ns pulse of the same surface rise makes it. */
export function heldMeltDepth(draw: Draw): Draw {
  const held = new Draw(draw.sample, answers.get(draw.sample.metal.metalId) as MetalAnswers);
  for (const shape of ["square", "gaussian"] as const) {
    const response = held[shape];
    Object.defineProperty(held, shape, {
      value: {
        ...response,
        meltDepth: (rise: number, start: number, _duration: number, diffusivity: number) =>
          response.meltDepth(rise, start, 100e-9, diffusivity),
      },
    });
  }
  return held;
}
