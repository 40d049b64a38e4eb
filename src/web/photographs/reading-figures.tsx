import { formatNumber } from "#units";
import { FigureText } from "../show/figure.tsx";
import { words } from "../words/index.ts";
import { percentText } from "./reading-text.ts";
import type { WirePatch } from "./rulings.ts";

const say = words.photographs.card;
const plus = ({ value, uncertainty }: { readonly value: number; readonly uncertainty: number }, digits = 2): string =>
  `${formatNumber(value, digits)} ± ${formatNumber(uncertainty, 1)}`;

/** Per cent of area between the two numbers of a residue from which it is said, as in the note of an outcome. */
const GAP_TOLD = 8;
/** Chance of a tint, and cosine of its way towards the coat, from which that is said. */
const TINTED = { chance: 0.5, towards: 0.9 } as const;

/** What the numbers mean together, in sentences. */
export function readingNotes({ reading }: WirePatch): string[] {
  const { residue, tint } = reading;
  const gap = residue === null ? 0 : Math.abs(residue.coverage_percent - residue.contrast_percent);
  const coat = tint !== null && tint.discoloured > TINTED.chance && tint.towardsCoat > TINTED.towards;
  return [...(gap > GAP_TOLD ? [say.gapWide] : []), ...(coat ? [say.towardsCoat] : [])];
}

/** Everything that photographs say of one patch, each number with its doubt; what they do not say is left out. */
export function ReadingFigures({ patch }: { readonly patch: WirePatch }) {
  const { residue, lightness, absolute, tint, melt, referenceMelt, streaks, raggedness_mm, photoSpread, condition } =
    patch.reading;
  return (
    <dl className="figures">
      {residue === null ? null : (
        <>
          <FigureText
            name={say.residue}
            note={`${say.doubt(percentText(residue.uncertainty_percent))}; ${say.limit(percentText(residue.detectionLimit_percent))}`}
          >
            {percentText(residue.value_percent)}
          </FigureText>
          <FigureText name={say.coverage}>{percentText(residue.coverage_percent)}</FigureText>
          <FigureText
            name={say.contrast}
            note={say.gap(percentText(Math.abs(residue.coverage_percent - residue.contrast_percent)))}
          >
            {percentText(residue.contrast_percent)}
          </FigureText>
        </>
      )}
      {lightness === null ? null : (
        <FigureText name={say.lightness} note={absolute ? say.absolute : say.relative}>
          {plus(lightness, 3)}
        </FigureText>
      )}
      {tint === null ? null : (
        <FigureText name={say.difference} note={say.discoloured(percentText(100 * tint.discoloured))}>
          {plus(tint.difference)}
        </FigureText>
      )}
      {melt === null ? null : (
        <FigureText name={say.melt} note={say.meltReference(formatNumber(referenceMelt, 2))}>
          {plus(melt.index)}
        </FigureText>
      )}
      {streaks === null ? null : (
        <FigureText name={say.streaks} note={say.streaksFinest(`${formatNumber(streaks.finest_mm, 2)} mm`)}>
          {streaks.found ? say.streaksEvery(`${plus(streaks.period_mm)} mm`) : say.streaksNone}
        </FigureText>
      )}
      {raggedness_mm === null ? null : <FigureText name={say.outline}>{`${plus(raggedness_mm)} mm`}</FigureText>}
      <FigureText name={say.spread}>
        {photoSpread === null ? say.spreadOne : `${formatNumber(photoSpread, 2)} L*`}
      </FigureText>
      <FigureText
        name={say.condition}
        note={
          condition === null
            ? undefined
            : say.conditionChance(percentText(100 * (condition.chances[condition.grade] ?? 0)))
        }
      >
        {condition === null ? say.conditionUnknown : words.grades[condition.grade]}
      </FigureText>
    </dl>
  );
}
