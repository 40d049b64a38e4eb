import { describe, expect, it } from "vitest";
import {
  centralSample,
  coordinateNames,
  drawStacks,
  layerKind,
  layerKinds,
  metal,
  metals,
  sampleStacks,
  usualColour,
} from "#library";
import { normalQuantile } from "#numerics";
import type { ColourClass, Stack, StackLayer } from "#terms";

const layer = (id: string, colour?: ColourClass): StackLayer => {
  const kind = layerKind(id);
  return { kind, colour: colour ?? usualColour(kind), thickness: kind.usualThickness, mustStay: false };
};
const stackOf = (metalId: string, ...layers: StackLayer[]): Stack => ({
  layers,
  metal: metal(metalId),
  metalThickness: 4e-3,
});
const alone = (stack: Stack) => [{ stack, weight: 1, assumption: "" }];
const white = stackOf("aluminium-5083", layer("polyurethane-topcoat", "white"), layer("epoxy-primer", "mid"));
const absorption = "layer:polyurethane-topcoat:white:absorption";

describe("coordinateNames", () => {
  it("stands beside the shares of a draw", () => {
    for (const stack of [white, stackOf("steel-low-carbon"), stackOf("zinc", layer("alkyd"), layer("red-rust"))]) {
      expect(coordinateNames(stack)).toHaveLength(drawStacks(alone(stack), 1, 1)[0]!.shares.length);
    }
  });

  it("names by what a thing is, not by where it lies", () => {
    const names = coordinateNames(white);
    expect(names).toContain(absorption);
    expect(names).toContain("metal:aluminium-5083:absorptance");
    expect(names.slice(0, 2)).toEqual(["machine:spot", "machine:power"]);
    const turned = coordinateNames({ ...white, layers: [...white.layers].reverse() });
    expect(new Set(turned)).toEqual(new Set(names));
  });

  it("tells the second layer of a kind and colour from the first", () => {
    const names = coordinateNames(
      stackOf("zinc", layer("alkyd", "mid"), layer("alkyd", "dark"), layer("alkyd", "mid")),
    );
    const given = names.filter((n) => n !== null);
    expect(new Set(given).size).toBe(given.length);
    expect(given.filter((n) => n.endsWith(":absorption") || n.endsWith(":absorption#2"))).toEqual([
      "layer:alkyd:mid:absorption",
      "layer:alkyd:dark:absorption",
      "layer:alkyd:mid:absorption#2",
    ]);
  });

  it("gives each number its own name", () => {
    const leaves = (value: unknown, path = ""): [string, unknown][] =>
      typeof value === "object" && value !== null && !ArrayBuffer.isView(value)
        ? Object.entries(value).flatMap(([key, inner]) => leaves(inner, `${path}/${key}`))
        : [[path, ArrayBuffer.isView(value) ? String(value) : value]];
    for (const stack of [
      white,
      stackOf("steel-low-carbon", layer("red-rust")),
      stackOf("copper", layer("zinc-coating")),
    ]) {
      const central = new Map(leaves(centralSample(stack)));
      for (const name of coordinateNames(stack)) {
        if (name === null || /^(machine|plume|conversion)/.test(name)) continue;
        const moved = leaves(centralSample(stack, new Map([[name, { mean: -1, spread: 1 }]])));
        const keys = moved.filter(([key, value]) => value !== central.get(key)).map(([key]) => key.split("/").pop()!);
        expect([name, keys]).toEqual([name, [fieldOf[name.split(":").pop()!]]]);
      }
    }
  });

  it("leaves without a name what cannot move, and only that", () => {
    // Moving a named number changes the draw; a number without a name has no second value. Kinetics of conversion
    // stand in every draw but count on rust alone.
    for (const [i, kind] of layerKinds.entries()) {
      const stack = stackOf(metals[i % metals.length]!.id, layer(kind.id));
      const central = JSON.stringify(centralSample(stack));
      const names = coordinateNames(stack);
      for (const name of names) {
        if (name === null) continue;
        const moved = JSON.stringify(centralSample(stack, new Map([[name, { mean: -1, spread: 1 }]])));
        expect(moved === central ? name : "moved").toBe("moved");
      }
      const still = drawStacks(alone(stack), 40, 3);
      const everywhere = new Map(names.flatMap((n) => (n === null ? [] : [[n, { mean: 0, spread: 1e-9 }]])));
      const frozen = sampleStacks(alone(stack), 40, 3, everywhere).map((s) =>
        JSON.stringify({ ...s, conversionRate: 0, conversionEnergy: 0 }, (_, v) => round(v)),
      );
      expect(still).toHaveLength(40);
      expect(new Set(frozen).size).toBe(1);
      expect(names.includes("conversion:rate")).toBe(kind.id === "red-rust");
    }
  });
});

/** The field of a draw that each name moves. */
const fieldOf: Readonly<Record<string, string>> = {
  absorptance: "absorptance",
  "melting-temperature": "meltingTemperature",
  "melting-heat": "latentHeatMelting",
  "boiling-temperature": "boilingTemperature",
  "boiling-heat": "latentHeatBoiling",
  density: "density",
  expansion: "expansion",
  "service-temperature": "serviceTemperature",
  "oxide-rate": "preExponential",
  "oxide-energy": "activationEnergy",
  conductivity: "conductivity",
  "heat-capacity": "heatCapacity",
  thickness: "thickness",
  absorption: "absorption",
  scattering: "scattering",
  "interface-temperature": "interfaceTemperature",
  "adhesion-strength": "adhesionStrength",
  "interface-energy": "interfaceActivationEnergy",
  "adhesion-scatter": "adhesionScatter",
  "external-reflectance": "externalReflectance",
  "internal-reflectance": "internalReflectance",
  "decomposition-rate": "preExponential",
  "decomposition-energy": "activationEnergy",
  "decomposition-heat": "heat",
  "char-fraction": "charFraction",
  "ablation-temperature": "ablationTemperature",
  "ablation-heat": "ablationHeat",
  "film-strength": "filmStrength",
  "youngs-modulus": "youngsModulus",
  "poisson-ratio": "poissonRatio",
  incubation: "incubation",
  "pit-area": "pitAreaShare",
  "pit-depth": "pitDepthRatio",
  "damage-temperature": "damageTemperature",
  "char-absorption": "absorption",
  "char-burn-off-rate": "preExponential",
  "char-burn-off-energy": "activationEnergy",
};

const round = (v: unknown) => (typeof v === "number" ? Number(v.toPrecision(6)) : v);

describe("draws with known numbers", () => {
  const at = coordinateNames(white).indexOf(absorption);
  const scores = (known?: ReadonlyMap<string, { mean: number; spread: number }>) =>
    drawStacks(alone(white), 4000, 5, known).map((d) => normalQuantile(d.shares[at]!));
  const moments = (z: readonly number[]) => {
    const mean = z.reduce((a, b) => a + b, 0) / z.length;
    return { mean, spread: Math.sqrt(z.reduce((a, b) => a + (b - mean) ** 2, 0) / z.length) };
  };

  it("have the mean and the spread that are known, on the scale of normal scores", () => {
    const got = moments(scores(new Map([[absorption, { mean: 0.7, spread: 0.5 }]])));
    // 4000 even points; the 0.1 % points cut next to nothing at this mean and spread
    expect(got.mean).toBeCloseTo(0.7, 2);
    expect(got.spread).toBeCloseTo(0.5, 2);
  });

  it("read the property at the moved share", () => {
    const known = new Map([[absorption, { mean: normalQuantile(0.95), spread: 1 }]]);
    const { absorption: property } = white.layers[0]!.kind.optics.white!;
    expect(centralSample(white, known).layers[0]!.absorption / property.high).toBeCloseTo(1, 12);
    expect(centralSample(white, known).layers[1]).toEqual(centralSample(white).layers[1]);
  });

  it("keep within the 0.1 % and 99.9 % points", () => {
    const z = scores(new Map([[absorption, { mean: 3, spread: 2 }]]));
    expect(Math.max(...z)).toBeCloseTo(normalQuantile(0.999), 12);
    expect(Math.min(...z)).toBeGreaterThanOrEqual(normalQuantile(0.001));
  });

  it("move nothing else, pass over names that the stack has not, and are the same to the bit without", () => {
    const plain = drawStacks(alone(white), 64, 5);
    const foreign = new Map([["layer:alkyd:mid:absorption", { mean: 2, spread: 0.1 }]]);
    expect(drawStacks(alone(white), 64, 5, foreign)).toEqual(
      plain.map((d) => ({ ...d, shares: Float64Array.from(d.shares) })),
    );
    expect(drawStacks(alone(white), 64, 5, new Map())).toEqual(plain);
    const moved = drawStacks(alone(white), 64, 5, new Map([[absorption, { mean: 1, spread: 0.5 }]]));
    moved.forEach((d, i) => {
      expect(d.shares[at]).not.toBe(plain[i]!.shares[at]);
      expect(d.sample.metal).toEqual(plain[i]!.sample.metal);
      expect(d.sample.layers[0]!.scattering).toBe(plain[i]!.sample.layers[0]!.scattering);
    });
  });

  it("refuse what is no knowledge", () => {
    const draw = (mean: number, spread: number) => () =>
      sampleStacks(alone(white), 8, 1, new Map([["plume", { mean, spread }]]));
    expect(draw(0, 0)).toThrow("invalid spread of plume: 0 (must be greater than 0)");
    expect(draw(0, Number.NaN)).toThrow("invalid spread of plume: not a number (must be greater than 0)");
    expect(draw(Number.NaN, 1)).toThrow("invalid mean of plume: not a number (must be a finite number)");
  });
});
