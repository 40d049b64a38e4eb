import { settledRise, spreadMeltDepth, spreadRise } from "#heat";
import { Draw, metalAnswers } from "#patch";
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
  /** power: W taken up; radius: m, 1/e²; speed: m/s */
  line(power: number, radius: number, speed: number): FastReading;
  /** the same line with melt and peak joined to the limit of settled heat, `spreadRise` and `spreadMeltDepth` */
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
 * the linear rise, `metalResponse` the real rise and the melt depth.
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
    const linear = lineRise(power, radius, speed);
    const lateral = draw.lateralFactor({ duration, radius, diffusivity, speed });
    const read = (x: number) =>
      spreadRise(
        draw.gaussian.rise(x, startTemperature),
        settledRise(metal, draw.metal.conductivity, x, startTemperature),
        lateral,
      );
    const column = draw.gaussian.meltDepth(linear, startTemperature, duration, diffusivity);
    const toMelt = metal.meltingTemperature - startTemperature;
    return {
      surfaceRise: Math.min(read(linear), boilingRise),
      meltDepth:
        read(linear) > toMelt ? spreadMeltDepth(column, radius, linear / draw.gaussian.meltOnset(startTemperature)) : 0,
    };
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
