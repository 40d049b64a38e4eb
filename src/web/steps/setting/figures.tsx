import { memo } from "react";
import type { SettingAnswer } from "../../live/protocol.ts";
import { Figure, FigureText } from "../../show/figure.tsx";
import { behindSetting, type NumberName } from "./behind-setting.ts";
import { quantityText } from "../../show/quantity-text.ts";
import { useUnitSystem } from "../../show/unit-system.ts";
import { words } from "../../words/index.ts";

/** What a setting does to layer and metal; where two lasers stand beside each other, what the other one does below. */
export const ResultFigures = memo(function ResultFigures({
  answer,
  other,
}: {
  readonly answer: SettingAnswer;
  readonly other: SettingAnswer | null;
}) {
  useUnitSystem();
  const p = answer.prediction;
  const w = words.setting;
  const behind = (name: NumberName) => behindSetting(name, answer.rounded, p.beam);
  const beside = (of: (answer: SettingAnswer) => number, unit: string, digits: number) =>
    other === null ? {} : { extra: words.live.otherHas(quantityText(of(other), unit, digits)) };
  return (
    <section className="sheet stack tight">
      <h2>{w.results}</h2>
      <dl className="figures">
        <Figure
          name={w.both}
          behind={behind("both")}
          value={p.probabilityBoth}
          unit="%"
          digits={2}
          {...beside((a) => a.prediction.probabilityBoth, "%", 2)}
        />
        <Figure name={w.clean} value={p.probabilityClean} unit="%" digits={2} />
        <Figure name={w.undamaged} value={p.probabilityUndamaged} unit="%" digits={2} />
        <Figure
          name={w.residue}
          behind={behind("residue")}
          value={p.residueFraction.median}
          unit="%"
          digits={2}
          low={p.residueFraction.low}
          high={p.residueFraction.high}
          {...beside((a) => a.prediction.residueFraction.median, "%", 2)}
        />
        <Figure
          name={w.peak}
          behind={behind("peak")}
          value={p.metalPeakTemperature.median}
          unit="degC"
          low={p.metalPeakTemperature.low}
          high={p.metalPeakTemperature.high}
          {...beside((a) => a.prediction.metalPeakTemperature.median, "degC", 3)}
        />
        <Figure
          name={w.melt}
          behind={behind("melt")}
          value={p.meltDepth.median}
          unit="um"
          digits={2}
          low={p.meltDepth.low}
          high={p.meltDepth.high}
        />
        <FigureText name={w.condition} behind={behind("condition")}>
          {words.grades[p.metalCondition] ?? ""}
        </FigureText>
        <Figure name={w.start} behind={behind("start")} value={answer.startTemperature} unit="degC" />
        <Figure
          name={w.rate}
          behind={behind("rate")}
          value={p.areaRate}
          unit="m2/h"
          digits={2}
          {...beside((a) => a.prediction.areaRate, "m2/h", 2)}
        />
      </dl>
    </section>
  );
});

/** Beam arithmetic of the setting. */
export const BeamFigures = memo(function BeamFigures({ answer }: { readonly answer: SettingAnswer }) {
  useUnitSystem();
  const b = answer.prediction.beam;
  const w = words.setting;
  const behind = (name: NumberName) => behindSetting(name, answer.rounded, b);
  return (
    <section className="sheet stack tight">
      <h2>{w.beam}</h2>
      {/* Always there, so that nothing moves under the hand that drags. */}
      <p className={b.energyLimited ? "small limited" : "small limited unsaid"}>{w.energyLimited}</p>
      <dl className="figures">
        <Figure name={w.spot} behind={behind("spot")} value={b.spotDiameter} unit="um" />
        <Figure name={w.meanPower} behind={behind("meanPower")} value={b.meanPower} unit="W" />
        {b.pulseEnergy !== null ? (
          <Figure name={w.pulseEnergy} behind={behind("pulseEnergy")} value={b.pulseEnergy} unit="mJ" />
        ) : null}
        {b.fluencePeak !== null ? (
          <Figure name={w.fluence} behind={behind("fluence")} value={b.fluencePeak} unit="J/cm2" />
        ) : null}
        <Figure
          name={w.irradiance}
          behind={behind("irradiance")}
          value={b.irradiancePeak}
          unit={b.irradiancePeak < 1e10 ? "kW/cm2" : "MW/cm2"}
        />
        {b.dwell !== null ? <Figure name={w.dwell} behind={behind("dwell")} value={b.dwell} unit="ms" /> : null}
        {b.pulseOverlap !== null ? (
          <Figure name={w.pulseOverlap} behind={behind("pulseOverlap")} value={b.pulseOverlap} unit="%" digits={2} />
        ) : null}
        <Figure name={w.lineOverlap} behind={behind("lineOverlap")} value={b.lineOverlap} unit="%" digits={2} />
        <Figure name={w.lineEnergy} behind={behind("lineEnergy")} value={b.lineEnergy} unit="J/m" />
        <Figure name={w.dose} behind={behind("dose")} value={b.arealDose} unit="J/cm2" />
        <Figure name={w.events} behind={behind("events")} value={b.eventsPerPoint} unit="1" digits={2} />
      </dl>
    </section>
  );
});
