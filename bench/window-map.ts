import { availableParallelism } from "node:os";
import { defaultSetting } from "#beam";
import { workOnThreads } from "#compute";
import { axisOver, createPartModel, mapFlow, oddsOf, settingAt, surveySetup } from "#workflows";
import { exampleModelParts, SEED } from "./example.ts";
import { cpu, type Piece } from "./measure.ts";

const SIDE = 100;
const DRAWS = 64;
/** Places of the plain reference: every draw at each, scaled to the whole map. */
const PLAIN_PLACES = 40;

/** 10,000 settings around the best one, frequency against speed, 64 draws each, on all cores. */
export const windowMapPieces: readonly Piece[] = [
  {
    id: "window-10k-64",
    async measure() {
      const { library, enquiry, part } = exampleModelParts();
      const setup = library.setup("pulsed-500");
      const model = createPartModel(part, { seed: SEED, drawCount: DRAWS });
      const setting = surveySetup(model, setup, enquiry.site, null).best?.setting ?? defaultSetting(setup);
      const spec = {
        setting,
        x: axisOver(setup, setting, "frequency", SIDE),
        y: axisOver(setup, setting, "speed", SIDE),
      };
      const before = process.cpuUsage();
      const started = performance.now();
      const map = await workOnThreads(
        mapFlow(spec, { part: 0, setup, seed: SEED, drawCount: DRAWS }),
        { parts: [part], seed: SEED, drawCount: DRAWS },
        { threads: availableParallelism() },
      );
      const wall = (performance.now() - started) / 1000;
      const spent = process.cpuUsage(before);
      const own = (spent.user + spent.system) / 1e6;
      const settings = Array.from({ length: PLAIN_PLACES }, (_, i) =>
        settingAt(spec, (37 * i) % SIDE, Math.floor((i * SIDE) / PLAIN_PLACES)),
      );
      const reference = (cpu(1, 1, () => oddsOf(model, setup, settings)) * SIDE * SIDE) / PLAIN_PLACES;
      const share = ((100 * map.evaluations) / map.evaluationsInFull).toFixed(0);
      return {
        id: "window-10k-64",
        cpu_s: own,
        reference_cpu_s: reference,
        ratio: own / reference,
        target: "<= 20 s",
        against: `every draw at ${PLAIN_PLACES} places, scaled to 10,000; wall ${wall.toFixed(1)} s on ${availableParallelism()} cores; ${share} % evaluated; within ${map.check.tolerance} at ${(100 * map.check.within).toFixed(1)} % of ${map.check.places} places`,
      };
    },
  },
];
