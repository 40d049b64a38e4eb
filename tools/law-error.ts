// How far the law that patches are stamped with lies from the full column, over seeded stacks, widths and fluences.
// Usage: npm run law-error; writes docs/law-error.md.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { solveColumn } from "#heat";
import { centralSample, createLibrary, sampleStacks } from "#library";
import { depositLight } from "#light";
import { createRandom, quantile } from "#numerics";
import { buildKernel, lawTable, metalResponse, responseTable } from "#removal";
import type { ColourClass, StackSample } from "#terms";

const SEED = 31;
const CASES = 160;
const root = new URL("..", import.meta.url).pathname;
const library = createLibrary([]);
const random = createRandom(SEED);
const pick = <T>(list: readonly T[]): T => list[random.integer(list.length)] as T;
const between = (low: number, high: number) => low * (high / low) ** random.next();

interface Compared {
  readonly name: string;
  readonly colour: ColourClass;
  readonly width: number;
  /** law over column, rise of the interface above the start */
  readonly rise: number;
  /** K */
  readonly columnRise: number;
  /** m */
  readonly eaten: number;
  readonly columnEaten: number;
}

const responses = new Map<string, ReturnType<typeof responseTable>>();

/** One random version of a random stack under one pulse, by the law and by the full column. */
function compared(): Compared {
  const metal = pick(library.metals);
  const kind = pick(library.layerKinds.filter((l) => l.decomposition !== null && "white" in l.optics));
  const colour = pick(["white", "mid", "dark"] as const);
  const thickness = between(10e-6, 120e-6);
  const usual = { ...kind.usualThickness, value: thickness, low: thickness, high: thickness };
  const stack = { metal, metalThickness: 5e-3, layers: [{ kind, colour, thickness: usual, mustStay: false }] };
  const sample = sampleStacks([{ weight: 1, assumption: "", stack }], 1, random.integer(1e6))[0] as StackSample;
  const width = between(5e-9, 500e-9);
  const start = between(293.15, 500);
  const table = responses.get(metal.id) ?? responseTable(centralSample(stack).metal, "square");
  responses.set(metal.id, table);
  const response = metalResponse({ ...table, meltingTemperature: sample.metal.meltingTemperature });
  const kernel = buildKernel(sample, width, "square");
  const row = kernel.nodes.findIndex((n) => n.remaining > 0.999 * thickness);
  const node = kernel.nodes[row];
  if (!node) throw new Error("the full layer is not a node of its kernel");
  // Between half and twice the fluence at which something begins: the metal under it nears melting, or the top is eaten.
  const toMelt = (sample.metal.meltingTemperature - start) / node.metalRise;
  const toEat = ((node.eatenAt[0] as number) - start) / (node.rise[0] as number);
  const fluence = Math.min(toMelt, toEat) * between(0.5, 2);
  const law = lawTable(sample, kernel, response, { startTemperature: start, radius: 1, lateralFactor: 1 });
  law.need(row);
  const at = (Math.log(fluence) - law.lnFluenceFirst) / law.lnFluenceStep;
  const i = row * law.columns + Math.floor(at);
  const part = at - Math.floor(at);
  const eaten = (law.eaten[i] as number) * (1 - part) + (law.eaten[i + 1] as number) * part;
  const layer = sample.layers[0]!;
  const column = solveColumn({
    layers: [layer],
    metal: sample.metal,
    light: (grid) => {
      const layerShares = new Float64Array(grid.layerCount);
      const optics = { thickness: layer.thickness, absorption: layer.absorption, scattering: layer.scattering };
      const { metalAbsorbed } = depositLight(
        {
          layers: [optics],
          metalAbsorptance: sample.metal.absorptance,
          externalReflectance: layer.externalReflectance,
          internalReflectance: layer.internalReflectance,
        },
        grid.edges.slice(0, grid.layerCount + 1),
        layerShares,
      );
      return { layerShares, metalShare: metalAbsorbed };
    },
    pulse: { fluence, duration: width, shape: "square" },
    startTemperature: start,
    endTime: width + 20e-6,
    grid: { layerCells: 60 },
  });
  let columnEaten = 0;
  for (let c = 0; c < column.grid.layerCount && (column.conversion[c] as number) >= 0.5; c++)
    columnEaten += (column.grid.edges[c + 1] as number) - (column.grid.edges[c] as number);
  const columnRise = column.metalSurfacePeak - start;
  return {
    name: `${kind.id} on ${metal.id}`,
    colour,
    width,
    rise: response.rise(fluence * node.interfaceRise, start) / columnRise,
    columnRise,
    eaten,
    columnEaten,
  };
}

const all = Array.from({ length: CASES }, compared);
const warm = all.filter((c) => c.columnRise > 20);
const percent = (x: number) => `${(100 * x).toFixed(1)} %`;
const micron = (x: number) => (1e6 * x).toFixed(2);
const line = (name: string, cases: readonly Compared[]): string => {
  const hot = cases.filter((c) => c.columnRise > 20).map((c) => Math.abs(c.rise - 1));
  const some = cases.filter((c) => Math.max(c.eaten, c.columnEaten) > 0.1e-6);
  const off = some.map((c) => Math.abs(c.eaten - c.columnEaten));
  const q = (v: readonly number[], p: number, show: (x: number) => string) => (v.length ? show(quantile(v, p)) : "-");
  return `| ${name} | ${hot.length} | ${q(hot, 0.5, percent)} | ${q(hot, 0.9, percent)} | ${q(hot, 1, percent)} | ${some.length} | ${q(
    some.map((c) => c.columnEaten),
    0.5,
    micron,
  )} | ${q(off, 0.5, micron)} | ${q(off, 0.9, micron)} | ${q(off, 1, micron)} |`;
};
const worst = [...warm].sort((a, b) => Math.abs(b.rise - 1) - Math.abs(a.rise - 1)).slice(0, 5);
const eatenWorst = [...all]
  .sort((a, b) => Math.abs(b.eaten - b.columnEaten) - Math.abs(a.eaten - a.columnEaten))
  .slice(0, 5);

const text = `# The law against the full column

Written by \`npm run law-error\`. A patch is stamped with a law read from linear columns (docs/decisions/0001): one solve
per remaining thickness and pulse width gives every fluence, starting temperature and drawn sample without another. This
page says what that costs. ${CASES} seeded cases: every metal and organic layer of the library in three colours, all
uncertain inputs drawn, 10 to 120 µm, 5 to 500 ns, started at 293 to 500 K, at half to twice the fluence at which the
metal nears melting or the top begins to be eaten. The full column has temperature-dependent metal, latent heats and
Arrhenius decomposition with its heat; both hold light where the layer first took it.

| layers | cases with a warm interface | rise of the interface, off by: median | 90 % | worst | cases eaten | eaten, median µm | off by µm: median | 90 % | worst |
|---|---|---|---|---|---|---|---|---|---|
${line("all", all)}
${(["white", "mid", "dark"] as const)
  .map((colour) =>
    line(
      colour,
      all.filter((c) => c.colour === colour),
    ),
  )
  .join("\n")}

Farthest off at the interface: ${worst.map((c) => `${c.colour} ${c.name}, ${(c.width * 1e9).toFixed(0)} ns, ${c.rise.toFixed(2)} of ${c.columnRise.toFixed(0)} K`).join("; ")}.
Farthest off in depth: ${eatenWorst.map((c) => `${c.colour} ${c.name}, ${(c.width * 1e9).toFixed(0)} ns, ${micron(c.eaten)} for ${micron(c.columnEaten)} µm`).join("; ")}.

The large relative errors sit on small rises, under layers that take nearly all of the light.
`;
writeFileSync(join(root, "docs/law-error.md"), text);
console.log(text);
