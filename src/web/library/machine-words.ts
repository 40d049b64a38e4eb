import { cutInFrequencyOf, fluencePeak, irradiancePeak, lineEnergy, pulsePitch } from "#beam";
import type { LaserSetup, Lens } from "#terms";
import { quantityText } from "../show/quantity-text.ts";
import { words } from "../words/index.ts";

const say = words.library.machine;

function pulseLines(setup: LaserSetup): string[] {
  const lines = setup.pulses.map(({ width, energyMax, frequencyMax }) => {
    const highest = Math.min(frequencyMax, setup.frequencyMax);
    const cut = cutInFrequencyOf(setup.ratedPower, energyMax);
    const [w, e, f] = [quantityText(width, "ns"), quantityText(energyMax, "mJ"), quantityText(highest, "kHz")];
    return cut < highest ? say.pulse(w, e, quantityText(cut, "kHz"), f) : say.pulseHeld(w, e, f);
  });
  return [...lines, say.shared, say.frequency(quantityText(setup.frequencyMin, "kHz"))];
}

/** Peak fluence (pulsed) or irradiance (continuous) in focus: the most that a lens makes of this source. */
function peakText(setup: LaserSetup, lens: Lens): string {
  if (setup.kind === "continuous")
    return quantityText(irradiancePeak(setup.ratedPower, lens.spotDiameter, setup.profile), "kW/cm2");
  const energy = Math.max(...setup.pulses.map((p) => p.energyMax));
  return quantityText(fluencePeak(energy, lens.spotDiameter, setup.profile), "J/cm2");
}

const lensLine = (setup: LaserSetup, lens: Lens): string =>
  say.lens(
    quantityText(lens.focalLength, "mm"),
    quantityText(lens.spotDiameter, "um"),
    quantityText(lens.fieldSide, "mm"),
    peakText(setup, lens),
  );

function motionLines(setup: LaserSetup): string[] {
  const { speedMin, speedMax, ratedPower } = setup;
  if (setup.kind === "continuous")
    return [
      say.dose(
        quantityText(lineEnergy(ratedPower, speedMax), "J/mm"),
        quantityText(lineEnergy(ratedPower, speedMin), "J/mm"),
      ),
    ];
  const fastest = Math.max(...setup.pulses.map((p) => Math.min(p.frequencyMax, setup.frequencyMax)));
  return [say.pitch(quantityText(pulsePitch(speedMax, fastest), "um"))];
}

/** What a set-up can be set to, in sentences: the limits that hang together are said together. */
export function machineWords(setup: LaserSetup): string[] {
  const { modulation, handLineWidth, price } = setup;
  const steady =
    modulation === null
      ? say.steady
      : say.modulation(
          quantityText(modulation.frequencyMin, "kHz"),
          quantityText(modulation.frequencyMax, "kHz"),
          quantityText(modulation.dutyMin, "%"),
        );
  return [
    ...(setup.kind === "pulsed" ? pulseLines(setup) : [steady]),
    ...setup.lenses.map((lens) => lensLine(setup, lens)),
    ...motionLines(setup),
    ...(setup.defocusMax > 0 ? [say.sharp(quantityText(setup.defocusMax, "mm"))] : []),
    ...(handLineWidth === null
      ? []
      : [say.hand(quantityText(handLineWidth.min, "mm"), quantityText(handLineWidth.max, "mm"))]),
    say.corner(quantityText(setup.smallestConcaveRadius, "mm")),
    say.price(quantityText(price.low, "", 4), quantityText(price.high, "", 4), price.currency),
  ];
}
