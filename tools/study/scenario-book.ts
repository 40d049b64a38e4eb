import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { beamState, checkSetting, roundToMachine } from "#beam";
import { calibrate } from "#calibration";
import type { Ray } from "#edges";
import type { LaserSetup, PartEnquiry, Setting } from "#terms";
import { factorsAround, gridSettings, latinHypercube, settingAt, writeFactor } from "#trial";
import { InvalidInput } from "#units";
import { type Choice, choiceTable, sameSetting, truthDraws, productionDrift } from "#window";
import {
  createPartModel,
  type EdgeBook,
  edgeBook,
  EVIDENCE_DRAWS,
  EVIDENCE_RAYS,
  fullPower,
  MODEL_VERSION,
} from "#workflows";

/** A setting to burn: which ray, at what power. */
export interface DesignPoint {
  readonly family: number;
  readonly setting: Setting;
}

/** All that the planners of one scenario share: the same prior, the same settings to choose from, their designs. */
export interface ScenarioBook {
  readonly rays: readonly Ray[];
  readonly draws: number;
  readonly centre: Choice;
  readonly designs: Readonly<Record<"full grid" | "one factor at a time" | "latin hypercube", readonly DesignPoint[]>>;
}

const MOST = 48;
const SEED = 5;

/** Solves the rays of a scenario, or reads those solved before by the same model. */
export function scenarioBook(id: string, part: PartEnquiry, setup: LaserSetup, folder: string): ScenarioBook {
  const key = createHash("sha256")
    .update(JSON.stringify([MODEL_VERSION, part, setup, EVIDENCE_DRAWS, EVIDENCE_RAYS, SEED, MOST, 3]))
    .digest("hex")
    .slice(0, 16);
  const file = `${folder}/${id}-${key}.json`;
  if (existsSync(file)) return read(file);
  const model = createPartModel(part, { seed: SEED, drawCount: EVIDENCE_DRAWS });
  const book = edgeBook(model, setup, { seed: SEED, rays: EVIDENCE_RAYS });
  const made = withDesigns(book, setup);
  mkdirSync(folder, { recursive: true });
  writeFileSync(
    file,
    JSON.stringify(made, (_, value) => (value instanceof Float64Array ? [...value] : value)),
  );
  return read(file);
}

function read(file: string): ScenarioBook {
  const raw = JSON.parse(readFileSync(file, "utf8")) as ScenarioBook;
  const rays = raw.rays.map((ray) => ({
    ...ray,
    half: Float64Array.from(ray.half),
    clean: Float64Array.from(ray.clean),
    melt: Float64Array.from(ray.melt),
    damage: Float64Array.from(ray.damage),
  }));
  return { ...raw, rays };
}

/** Classical designs around the setting of most expected robust rate under the prior, each with its rays added to those that all may choose from. */
function withDesigns(book: EdgeBook, setup: LaserSetup): ScenarioBook {
  const rays = [...book.rays];
  const posterior = calibrate({ kind: setup.kind, draws: book.draws, patches: [], seed: SEED });
  const { choices } = choiceTable(truthDraws(posterior), rays, productionDrift);
  // What the comparison would send to a trial: not the surest setting, which may be a crawl, but the most rate on average.
  const centre = choices.reduce((a, b) => (b.share * b.areaRate > a.share * a.areaRate ? b : a));
  const factors = factorsAround(setup, centre.setting);
  const point = (raw: Setting): DesignPoint[] => {
    try {
      const setting = roundToMachine(setup, raw);
      checkSetting(setup, setting);
      const full = fullPower(setup, setting, null);
      let family = rays.findIndex((r) => sameSetting(r.setting, full));
      if (family < 0) {
        rays.push(book.solve(setting));
        family = rays.length - 1;
      }
      const x = Math.log(beamState(setup, setting).meanPower / beamState(setup, rays[family]!.setting).meanPower);
      return [{ family, setting: { ...rays[family]!.setting, level: rays[family]!.setting.level * Math.exp(x) } }];
    } catch (error) {
      if (error instanceof InvalidInput) return [];
      throw error;
    }
  };
  const grid = gridSettings(centre.setting, factors, MOST).flatMap(point);
  const perFactor = Math.ceil(MOST / Math.max(1, factors.length));
  const oneByOne = Array.from({ length: perFactor }, (_, k) =>
    factors.flatMap((f) => {
      const t = perFactor === 1 ? 0.5 : k / (perFactor - 1);
      const value =
        f.choices === null ? f.low * (f.high / f.low) ** t : f.choices[Math.round(t * (f.choices.length - 1))]!;
      return point(writeFactor(centre.setting, f.name, value));
    }),
  ).flat();
  const hypercube = latinHypercube(2 * MOST, factors.length, SEED)
    .flatMap((t) => point(settingAt(centre.setting, factors, t)))
    .slice(0, MOST);
  return {
    rays,
    draws: book.draws,
    centre: { ...centre, meets: new Uint8Array(0) },
    designs: { "full grid": grid, "one factor at a time": oneByOne.slice(0, MOST), "latin hypercube": hypercube },
  };
}
