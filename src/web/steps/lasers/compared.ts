import { type ComparisonWire, settingFromWire, type VerdictWire } from "#contract";
import { settingLine } from "#report";
import type { Comparison, SetupVerdict } from "#terms";
import { toSI } from "#units";
import { quantityText } from "../../show/quantity-text.ts";
import { words } from "../../words/index.ts";

/** One column of a comparison in words, row by row as `comparedRows` names them. */
export type ComparedSide = readonly string[];

export interface ComparedPair {
  readonly pulsed: ComparedSide | null;
  readonly continuous: ComparedSide | null;
  readonly sentence: string;
}

/** Pulsed and continuous by prediction, ready to be shown. */
export interface Compared {
  readonly meanPower: string;
  readonly equalPower: ComparedPair;
  readonly eachAtBest: ComparedPair;
  readonly equal: readonly string[];
  readonly unequal: readonly string[];
}

export const comparedRows: readonly string[] = [
  words.setting.setup,
  words.lasers.power,
  words.lasers.rate,
  words.lasers.sure,
  words.setting.residue,
  words.setting.peak,
  words.setting.condition,
  words.lasers.best,
];

/** As the worker found it, SI. */
export function ofModel({ equalPower, eachAtBest, equal, unequal }: Comparison): Compared {
  const side = (v: SetupVerdict | null): ComparedSide | null =>
    v && [
      v.setupName,
      quantityText(v.meanPower, "W"),
      quantityText(v.areaRate, "m2/h"),
      quantityText(v.sureness, "%", 2),
      quantityText(v.best?.residueFraction.median ?? null, "%", 2),
      quantityText(v.best?.metalPeakTemperature.median ?? null, "degC", 3),
      v.best ? (words.grades[v.best.metalCondition] ?? "") : words.comparison.none,
      v.best ? settingLine(v.best.setting) : words.comparison.none,
    ];
  return compared(equalPower, eachAtBest, quantityText(equalPower.meanPower, "W"), side, equal, unequal);
}

/** As an answer kept it, in the units of the wire. */
export function ofWire({ equalPower, eachAtBest, equal, unequal }: ComparisonWire): Compared {
  const side = (v: VerdictWire | null): ComparedSide | null =>
    v && [
      v.name,
      quantityText(v.meanPower_W, "W"),
      quantityText(toSI(v.areaRate_m2_per_h, "m2/h"), "m2/h"),
      quantityText(v.sureness, "%", 2),
      quantityText(v.best?.residueFraction ?? null, "%", 2),
      quantityText(v.best?.metalPeakTemperature_K ?? null, "degC", 3),
      v.best ? (words.grades[v.best.metalCondition] ?? "") : words.comparison.none,
      v.best ? settingLine(settingFromWire(v.best.setting)) : words.comparison.none,
    ];
  return compared(equalPower, eachAtBest, quantityText(equalPower.meanPower_W, "W"), side, equal, unequal);
}

interface Pair<V> {
  readonly pulsed: V | null;
  readonly continuous: V | null;
  readonly sentence: string;
}

function compared<V>(
  equalPower: Pair<V>,
  eachAtBest: Pair<V>,
  meanPower: string,
  side: (v: V | null) => ComparedSide | null,
  equal: readonly string[],
  unequal: readonly string[],
): Compared {
  const pair = ({ pulsed, continuous, sentence }: Pair<V>): ComparedPair => ({
    pulsed: side(pulsed),
    continuous: side(continuous),
    sentence,
  });
  return { meanPower, equalPower: pair(equalPower), eachAtBest: pair(eachAtBest), equal, unequal };
}
