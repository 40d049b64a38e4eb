import type { BeamState, LaserSetup, Setting } from "#terms";
import { invalid } from "#units";
import { spotDiameterAt } from "./focus.ts";
import { lensOf } from "./lens.ts";
import { meanPowerModulated, onTime } from "./modulation.ts";
import { maxPulseEnergy, peakPower, pulseEnergy, pulseShapeFactor } from "./pulse.ts";
import { arealDose, dwell, lineEnergy, linesPerPoint, overlap, pulsePitch, pulsesPerPoint } from "./scan.ts";
import { fluenceMean, fluencePeak, irradiancePeak } from "./spot-load.ts";

function sharedState(setting: Setting, diameter: number, meanPower: number) {
  return {
    spotDiameter: diameter,
    meanPower,
    lineEnergy: lineEnergy(meanPower, setting.speed),
    arealDose: arealDose(meanPower, setting.speed, setting.lineSpacing),
    lineOverlap: overlap(setting.lineSpacing, diameter),
    areaRateIdeal: (setting.speed * setting.lineSpacing) / setting.passes,
  };
}

function pulsedState(setup: LaserSetup, setting: Setting, diameter: number): BeamState {
  const width = setting.pulseWidth ?? invalid("pulse width", null, "", `${setup.id} is pulsed and needs one`);
  const frequency = setting.frequency ?? invalid("frequency", null, "", `${setup.id} is pulsed and needs one`);
  const asked = setting.power * setting.level;
  const energyMax = maxPulseEnergy(setup, width);
  const energy = pulseEnergy(asked, frequency, energyMax);
  // Pulses of these sources rise and fall smoothly; the Gaussian factor is the better of the two simple shapes.
  const peak = peakPower(energy, width, pulseShapeFactor.gaussian);
  const pitch = pulsePitch(setting.speed, frequency);
  return {
    ...sharedState(setting, diameter, energy * frequency),
    pulseEnergy: energy,
    peakPower: peak,
    fluenceMean: fluenceMean(energy, diameter),
    fluencePeak: fluencePeak(energy, diameter, setup.profile),
    irradiancePeak: irradiancePeak(peak, diameter, setup.profile),
    dwell: null,
    pulsePitch: pitch,
    pulseOverlap: overlap(pitch, diameter),
    eventsPerPoint: pulsesPerPoint(frequency, diameter, setting.speed, setting.lineSpacing, setting.passes),
    onTime: width,
    energyLimited: asked > energyMax * frequency * (1 + 1e-9),
  };
}

function continuousState(setup: LaserSetup, setting: Setting, diameter: number): BeamState {
  const whileOn = setting.power * setting.level;
  const { frequency, duty } = setting;
  const modulated = frequency !== null && duty < 1;
  return {
    ...sharedState(setting, diameter, meanPowerModulated(setting.power, setting.level, duty)),
    pulseEnergy: null,
    peakPower: whileOn,
    fluenceMean: null,
    fluencePeak: null,
    irradiancePeak: irradiancePeak(whileOn, diameter, setup.profile),
    dwell: dwell(diameter, setting.speed),
    pulsePitch: modulated ? pulsePitch(setting.speed, frequency) : null,
    // A burst is drawn out by v·duty/f, so only the dark rest of the pitch counts against the overlap.
    pulseOverlap: modulated ? overlap(pulsePitch(setting.speed, frequency) * (1 - duty), diameter) : null,
    eventsPerPoint: linesPerPoint(diameter, setting.lineSpacing, setting.passes),
    onTime: modulated ? onTime(duty, frequency) : null,
    energyLimited: false,
  };
}

/**
 * Beam arithmetic of one setting on one set-up (SI; see BeamState for the unit of each entry), at normal incidence:
 * multiply fluence and irradiance by incidenceFactor otherwise. Pulsed: mean power = min(P·level, E_max·f).
 * Continuous: power while on P·level, mean power P·level·duty. eventsPerPoint counts the d × d square.
 * Throws InvalidInput on values without meaning; use checkSetting for the machine's limits.
 */
export function beamState(setup: LaserSetup, setting: Setting): BeamState {
  const diameter = spotDiameterAt(lensOf(setup, setting.lens), setting.defocus);
  return setup.kind === "pulsed" ? pulsedState(setup, setting, diameter) : continuousState(setup, setting, diameter);
}
