import { Draw, metalAnswers } from "#patch";
import { spreadResponse } from "#removal";
import type { MetalSample } from "#terms";

/** What the product's fast model says of bare metal under one event. */
export interface FastReading {
  /** K above the start, at most up to boiling */
  readonly surfaceRise: number;
  /** m */
  readonly meltDepth: number;
}

/** The fast model on one bare metal, put together from the very pieces that a patch prediction uses. */
export interface FastBareMetal {
  /** the column alone, without `spreadResponse`; power: W taken up; radius: m, 1/e²; speed: m/s */
  line(power: number, radius: number, speed: number): FastReading;
  /** the line as the product answers it: column joined to the limit of settled heat, `spreadResponse` */
  spreadLine(power: number, radius: number, speed: number): FastReading;
  /** energy: J taken up; radius: m, 1/e²; duration: s */
  pulse(energy: number, radius: number, duration: number): FastReading;
  /** W taken up at which a line begins to melt */
  lineMeltingPower(radius: number, speed: number): number;
  /** J taken up at which a pulse begins to melt */
  pulseMeltingEnergy(radius: number, duration: number): number;
  /** m²/s that the fast model takes for the metal */
  readonly diffusivity: number;
}

/**
 * Fast model of a Gaussian spot on bare metal as `predictPatch` runs it: linear column × lateral factor × fluence gives
 * the linear rise, `spreadResponse` (lines) or `metalResponse` (pulses) the real rise and the melt depth.
 *
 * Units: metal SI; startTemperature K. Range: start below melting. Errors: those of the pieces.
 * Source: `predictPatch`, `centreFluence`.
 */
export function fastBareMetal(metal: MetalSample, startTemperature: number): FastBareMetal {
  const answers = metalAnswers(metal);
  const draw = new Draw({ stackIndex: 0, layers: [], metal, spotFactor: 1, powerFactor: 1 }, answers);
  const { diffusivity } = draw.metal;
  const boilingRise = metal.boilingTemperature - startTemperature;
  const lineRise = (power: number, radius: number, speed: number): number => {
    const duration = (2 * radius) / speed;
    const { first, second, weight } = draw.kernelsAround(duration, "gaussian");
    const [a, b] = [first.nodes[0], second.nodes[0]];
    const rise = a.metalRise + weight * (b.metalRise - a.metalRise);
    const fluence = (((2 * power) / (Math.PI * radius * radius)) * radius * Math.sqrt(Math.PI / 2)) / speed;
    return (fluence / a.heatShare) * rise * draw.lateralFactor({ duration, radius, diffusivity, speed });
  };
  const pulseRise = (energy: number, radius: number, duration: number): number => {
    const node = draw.kernel(duration, "square").nodes[0];
    const fluence = (2 * energy) / (Math.PI * radius * radius);
    return (
      (fluence / node.heatShare) * node.metalRise * draw.lateralFactor({ duration, radius, diffusivity, speed: 0 })
    );
  };
  const read = (response: Draw["square"], rise: number, duration: number): FastReading => ({
    surfaceRise: Math.min(response.rise(rise, startTemperature), boilingRise),
    meltDepth:
      rise > response.meltOnset(startTemperature)
        ? response.meltDepth(rise, startTemperature, duration, diffusivity)
        : 0,
  });
  const spreadLine = (power: number, radius: number, speed: number): FastReading => {
    const duration = (2 * radius) / speed;
    const response = spreadResponse(draw.gaussian, metal, {
      lateralFactor: draw.lateralFactor({ duration, radius, diffusivity, speed }),
      radius,
      meanConductivity: draw.metal.conductivity,
    });
    return read(response, lineRise(power, radius, speed), duration);
  };
  return {
    spreadLine,
    line: (power, radius, speed) => read(draw.gaussian, lineRise(power, radius, speed), (2 * radius) / speed),
    pulse: (energy, radius, duration) => read(draw.square, pulseRise(energy, radius, duration), duration),
    lineMeltingPower: (radius, speed) => draw.gaussian.meltOnset(startTemperature) / lineRise(1, radius, speed),
    pulseMeltingEnergy: (radius, duration) => draw.square.meltOnset(startTemperature) / pulseRise(1, radius, duration),
    diffusivity,
  };
}
