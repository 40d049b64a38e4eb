import { lensOf } from "#beam";
import type { Posterior } from "#calibration";
import type { DriftSpread, LaserSetup, Recommendation, Setting } from "#terms";
import {
  type Choice,
  chosenWords,
  edgeRoom,
  isProven,
  marginFrom,
  rayTruth,
  type Repeats,
  roomWords,
  spreadOver,
  truthDraws,
} from "#window";
import type { EdgeBook } from "./edge-book.ts";
import { linkNotes } from "./link-note.ts";
import { powerOn } from "./trial-evidence.ts";

/** The chosen setting with its chances, its room to both edges, its repeats and the words for them; notes beside it. */
export function recommendationOf(
  setup: LaserSetup,
  book: EdgeBook,
  posterior: Posterior,
  choice: Choice,
  drift: DriftSpread,
  repeatsOf: (setting: Setting) => Repeats,
): { readonly recommended: Recommendation; readonly notes: readonly string[] } {
  const { setting } = choice;
  const repeats = repeatsOf(setting);
  const proven = isProven(repeats);
  const ray = book.rays[choice.family] ?? book.solve(setting, false);
  const truth = rayTruth(truthDraws(posterior), ray, drift);
  const x = powerOn(setup, ray, setting);
  const room = edgeRoom(truth, x);
  const both = spreadOver(truth, x);
  const lens = lensOf(setup, setting.lens);
  // In focus the spot grows with the square of the distance: 1 % at √0.02 of the Rayleigh length.
  const perCentSpot = setting.defocus === 0 ? lens.rayleighLength * Math.sqrt(0.02) : null;
  const recommended: Recommendation = {
    setting,
    probabilityClean: choice.clean,
    probabilityUndamaged: choice.undamaged,
    probabilityBoth: both.mean,
    probabilityBothLow: both.low,
    probabilityBothHigh: both.high,
    margin: marginFrom(room),
    areaRate: choice.areaRate,
    repeats: repeats.burned,
    repeatsGood: repeats.good,
    proven,
    words: [...chosenWords(choice, repeats, proven, drift), ...roomWords(truth, room, perCentSpot)],
  };
  return { recommended, notes: linkNotes(truth, x, repeats) };
}
