import { pulseChoice } from "#beam";
import type { LaserSetup, Setting } from "#terms";

/** Unit conversions may leave a limit by the last bits. */
const SLACK = 1e-9;

/** W that a set-up gives at the pulse width and frequency of a setting: E_max·f, or what is set where that is less. */
function deliveredPower(setup: LaserSetup, setting: Setting): number {
  const set = setting.power * setting.level;
  if (setup.kind !== "pulsed" || setting.pulseWidth === null || setting.frequency === null) return set;
  return Math.min(set, pulseChoice(setup, setting.pulseWidth).energyMax * setting.frequency);
}

/**
 * True where the set-up gives the power that is set: pulsed below its cut-in frequency at this width it gives less.
 * SI. Throws InvalidInput on a pulse width that is not on offer. Source: E = P/f up to E_max, definition.
 */
export function isDelivered(setup: LaserSetup, setting: Setting): boolean {
  return setting.power * setting.level <= deliveredPower(setup, setting) * (1 + SLACK);
}

/** The setting with the power that it really gives, to the tenth of a watt below; unchanged where it gives all. */
export function asDelivered(setup: LaserSetup, setting: Setting): Setting {
  if (isDelivered(setup, setting)) return setting;
  return { ...setting, power: Math.max(0.1, Math.floor(10 * deliveredPower(setup, setting) + 1e-6) / 10), level: 1 };
}
