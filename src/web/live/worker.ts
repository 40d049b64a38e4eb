import { roundToMachine } from "#beam";
import { parseEnquiry, parseShop } from "#contract";
import { createLibrary } from "#library";
import { quantile } from "#numerics";
import type { MetalAnswers } from "#patch";
import type { Enquiry, LaserSetup, PartEnquiry, Setting } from "#terms";
import { InvalidInput, invalid } from "#units";
import {
  comparePulsedContinuous,
  createPartModel,
  mapBand,
  measurementAdvice,
  nextBatch,
  type PartModel,
  partCautions,
  patchView,
  predict,
  pulseFilm,
  settingDetails,
  surveySetup,
  surveySetups,
  triage,
  twoEdges,
} from "#workflows";
import type { Answer, Ask, FromWorker, LivePicture, QuestionKind, ToWorker } from "./protocol.ts";
import { planAnswer, WindowDesk } from "./trial-answers.ts";

/** One seed for every page, so that two looks at the same part agree. */
const SEED = 1;
/** Pictures and films show the central version of the physics alone: the smallest model has it. */
const CENTRAL = 1;
let library = createLibrary([]);
const metals = new Map<string, MetalAnswers>();
let enquiry: Enquiry | null = null;
let models = new Map<string, PartModel>();
const windows = new WindowDesk();

function part(id: string): PartEnquiry {
  if (!enquiry) return invalid("enquiry", "none", "", "describe the part first");
  return (
    enquiry.parts.find((p) => p.id === id) ??
    invalid("part", id, "", `one of: ${enquiry.parts.map((p) => p.id).join(", ")}`)
  );
}

/** Models are kept while the enquiry stays the same: the full column of a metal is solved once. */
function model(id: string, drawCount: number): PartModel {
  const key = `${id} ${drawCount}`;
  const known = models.get(key);
  if (known) return known;
  const made = createPartModel(part(id), { seed: SEED, drawCount, answers: metals });
  models.set(key, made);
  return made;
}

type Answers = { [K in QuestionKind]: (ask: Ask<K>, progress: (done: number, total: number) => void) => Answer<K> };

const answers: Answers = {
  library: ({ files }) => {
    library = createLibrary(files);
    models = new Map();
    metals.clear();
    windows.forget();
    enquiry = null;
    return null;
  },
  enquiry: ({ doc }) => {
    models = new Map();
    windows.forget();
    enquiry = null;
    enquiry = parseEnquiry(doc, library);
    return enquiry;
  },
  predict: ({ partId, setupId, setting, drawCount }) => {
    const setup = library.setup(setupId);
    const rounded = roundToMachine(setup, setting);
    const prediction = predict(model(partId, drawCount), setup, rounded);
    return {
      prediction: { ...prediction, draws: [] },
      startTemperature: quantile(
        prediction.draws.map((d) => d.startTemperature),
        0.5,
      ),
      cautions: partCautions(part(partId), setup, rounded),
      rounded,
    };
  },
  picture: ({ partId, setupId, setting, cells }) => {
    const setup = library.setup(setupId);
    return livePicture(model(partId, CENTRAL), setup, roundToMachine(setup, setting), cells);
  },
  best: ({ partId, setupId, drawCount }) => {
    const { site } = enquiry ?? invalid("enquiry", "none", "", "describe the part first");
    return surveySetup(model(partId, drawCount), library.setup(setupId), site, null).best?.setting ?? null;
  },
  edges: ({ partId, setupId, setting, drawCount }) => {
    const setup = library.setup(setupId);
    return twoEdges(model(partId, drawCount), setup, roundToMachine(setup, setting));
  },
  band: ({ partId, setupId, spec, band, drawCount }) =>
    mapBand(model(partId, drawCount), library.setup(setupId), spec, band),
  film: ({ partId, setupId, setting, on }) => {
    const setup = library.setup(setupId);
    return pulseFilm(model(partId, CENTRAL), setup, roundToMachine(setup, setting), on);
  },
  batch: ({ partId, trial, next, seed, drawCount }) =>
    nextBatch(model(partId, drawCount), library.setup(trial.setupId), trial, next, { seed }),
  details: ({ partId, setupId, setting, shop }) => {
    const setup = library.setup(setupId);
    const mine = part(partId);
    return settingDetails(mine, (enquiry as Enquiry).site, setup, setting, parseShop(shop));
  },
  survey: ({ partId, drawCount }, progress) => {
    const mine = part(partId);
    const site = (enquiry as Enquiry).site;
    const verdict = triage(mine);
    if (verdict.verdict === "declined")
      return { triage: verdict, verdicts: [], comparison: null, advice: [], cautions: [] };
    const here = model(partId, drawCount);
    const verdicts = surveySetups(here, library.setups, site, { onProgress: progress });
    const lead = verdicts.find((v) => v.best !== null);
    return {
      triage: verdict,
      verdicts: verdicts.map((v) => (v.best ? { ...v, best: { ...v.best, draws: [] } } : v)),
      comparison: comparePulsedContinuous(here, library.setups, site, verdicts),
      advice: lead?.best ? measurementAdvice(here, library.setup(lead.setupId), lead.best.setting) : [],
      cautions: lead?.best ? partCautions(mine, library.setup(lead.setupId), lead.best.setting) : [],
    };
  },
  plan: ({ partId, setupId, drawCount, ...ask }, progress) => {
    const { id: enquiryId, site } = enquiry as Enquiry;
    return planAnswer(model(partId, drawCount), library.setup(setupId), { ...ask, enquiryId, site }, progress);
  },
  window: ({ partId, drawCount, ...ask }, progress) =>
    windows.answer(model(partId, drawCount), library.setup(ask.trial.setupId), ask, progress),
};

/** A piece of the patch around the middle of the spot, small enough to follow a hand. */
function livePicture(here: PartModel, setup: LaserSetup, setting: Setting, cells: number): LivePicture {
  const { side, picture, tint } = patchView(here, setup, setting, { seed: SEED, cells });
  const { pixels, width, height, legend } = picture;
  return { pixels, width, height, side, tint, legend };
}

function say(message: FromWorker): void {
  postMessage(message);
}

addEventListener("message", (event: MessageEvent<ToWorker>) => {
  const { id, kind, ask } = event.data;
  try {
    const answer = (answers[kind] as (ask: unknown, progress: (done: number, total: number) => void) => unknown)(
      ask,
      (done, total) => say({ id, state: "progress", done, total }),
    );
    say({ id, state: "done", answer });
  } catch (error) {
    say({
      id,
      state: "failed",
      line:
        error instanceof InvalidInput
          ? error.message
          : `the computation failed: ${error instanceof Error ? error.message : String(error)}`,
    });
  }
});
