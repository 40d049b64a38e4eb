import { beamState, checkSetting, defaultSetting, roundToMachine } from "#beam";
import { parseEnquiry } from "#contract";
import { createLibrary } from "#library";
import { createRandom } from "#numerics";
import { type Draw, type PatchMap, type PatchPlan, patchMap, predictPatch } from "#patch";
import type { PatchResult, Setting } from "#terms";
import { createPartModel, type PartModel, planOf } from "#workflows";

const library = createLibrary([]);
const parts = [
  { material: "aluminium-5083", layers: [{ kind: "polyurethane-topcoat", colour: "white", thickness_um: 40 }] },
  { material: "steel-low-carbon", layers: [{ kind: "red-rust", thickness_um: 40 }] },
  { material: "steel-low-carbon", layers: [{ kind: "alkyd", colour: "dark", thickness_um: 60 }] },
  { material: "stainless-304", layers: [{ kind: "oil-film", thickness_um: 3 }] },
];

/** m: the patch that the plan's warming is worked out for. */
export const SIDE = 15e-3;

export function models(): PartModel[] {
  return parseEnquiry({ parts }, library).parts.map((part) => createPartModel(part, { seed: 3, drawCount: 4 }));
}

export interface Compared {
  readonly setting: Setting;
  readonly setup: string;
  readonly part: string;
  readonly fast: PatchResult;
  readonly full: PatchMap;
  readonly plan: PatchPlan;
  readonly draw: Draw;
}

/**
 * Cells amid the patch over a whole number of line spacings, so that no part of the pattern counts twice; eight lines of
 * pulses, because their phase wanders from line to line.
 */
export function amid(draw: Draw, plan: PatchPlan, fluenceScale = 1): PatchMap {
  const radius = plan.beam.spotDiameter / 2;
  const { lineSpacing } = plan.setting;
  const line = plan.events === "line";
  const height = Math.max(SIDE, 12 * radius + 16 * lineSpacing);
  const lines = line ? 1 : 8;
  const rows = line ? 144 : 12 * lines;
  const step = (lines * lineSpacing) / rows;
  const along = 3 * (plan.beam.pulsePitch ?? radius);
  const columns = line ? 1 : Math.min(48, Math.max(10, Math.round(along / step)));
  const firstLine = Math.round((height - lines * lineSpacing) / 2 / lineSpacing) * lineSpacing;
  return patchMap(draw, plan, {
    width: SIDE,
    height,
    fluenceScale,
    grid: { columns, rows, step, x0: SIDE / 2, y0: firstLine + step / 2 },
  });
}

/** Seeded settings over all set-ups and a few stacks, each predicted both ways on one version of the physics. */
export function compare(count: number, seed: number, made = models()): Compared[] {
  const random = createRandom(seed);
  const found: Compared[] = [];
  while (found.length < count) {
    const setup = library.setups[random.integer(library.setups.length)]!;
    const model = made[random.integer(made.length)]!;
    const base = defaultSetting(setup);
    const spot = beamState(setup, base).spotDiameter;
    const overlapped = spot * (0.15 + 0.75 * random.next());
    const setting = roundToMachine(setup, {
      ...base,
      frequency: base.frequency === null ? null : base.frequency * 4 ** (random.next() - 0.5),
      speed:
        base.frequency === null ? base.speed * 10 ** (2 * random.next() - 1) : base.speed * 4 ** (random.next() - 0.5),
      lineSpacing: overlapped,
      passes: 1 + random.integer(4),
      level: 0.2 + 0.8 * random.next(),
    });
    const draw = model.draws[random.integer(model.draws.length)]!;
    try {
      checkSetting(setup, setting);
    } catch {
      continue;
    }
    const plan = planOf(model, setup, setting);
    const fast = predictPatch(draw, plan, model.part.acceptance);
    found.push({ setting, setup: setup.id, part: model.part.name, fast, full: amid(draw, plan), plan, draw });
  }
  return found;
}
