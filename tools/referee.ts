// Puts lines and pulses on bare metal before the three-dimensional solver and writes docs/referee.md.
import { writeFileSync } from "node:fs";
import { movingGaussianMaximumRise } from "#heat";
import { centralSample, metal } from "#library";
import { type Judged, judgeOf, meltAgrees, peakAgrees, refereeTable, solveMovingLine, solvePulse } from "#referee";

const START = 293.15;
const began = performance.now();
const lines: Judged[] = [];
const pulses: Judged[] = [];
for (const id of ["aluminium-5083", "steel-low-carbon"]) {
  const judge = judgeOf(centralSample({ layers: [], metal: metal(id), metalThickness: 0.01 }).metal, START);
  for (const spot of [0.1e-3, 0.2e-3, 0.3e-3, 0.5e-3])
    for (const speed of [0.05, 0.5, 5]) for (const over of [0.7, 1.2, 2, 3]) lines.push(judge.line(spot, speed, over));
  for (const spot of [50e-6, 100e-6, 200e-6])
    for (const duration of [30e-9, 100e-9, 200e-9])
      for (const over of [0.7, 1.5]) pulses.push(judge.pulse(spot, duration, over));
  console.log(`${id}: ${((performance.now() - began) / 1000).toFixed(0)} s`);
}

const steel = centralSample({ layers: [], metal: metal("steel-low-carbon"), metalThickness: 0.01 }).metal;
const constant = {
  density: 7850,
  temperature: Float64Array.of(300),
  conductivity: Float64Array.of(50),
  heatCapacity: Float64Array.of(480),
  meltingTemperature: 5000,
  latentHeatMelting: 0,
  boilingTemperature: 9000,
  latentHeatBoiling: 0,
};
const spot = { profile: "gaussian", radius: 1e-4 } as const;
const exactRows = [0.1, 1, 20, 200].map((peclet) => {
  const speed = (peclet * 50) / (7850 * 480 * 1e-4);
  const exact = movingGaussianMaximumRise({ conductivity: 50, density: 7850, heatCapacity: 480 }, 10, 1e-4, speed);
  const cells = [7, 10].map((n) => {
    const power = (1000 / exact) * 10;
    const { surfaceRise } = solveMovingLine(
      { metal: constant, spot, power, speed, startTemperature: 300 },
      { cells: n, tolerance: 5e-8 },
    );
    return `${((surfaceRise / 1000 - 1) * 100).toFixed(2)} %`;
  });
  return `| ${[peclet, ...cells].join(" | ")} |`;
});
const gridRows = [5, 7, 10].map((cells) => {
  const r = solveMovingLine({ metal: steel, spot, power: 55, speed: 0.5, startTemperature: START }, { cells });
  return `| ${[cells, r.cellCount, r.surfaceRise.toFixed(1), (r.meltDepth * 1e6).toFixed(2), (r.meltWidth * 1e6).toFixed(1), r.energyRatio.toFixed(4), r.sweeps].join(" | ")} |`;
});
const stepRows = [12, 24, 48].map((steps) => {
  const r = solvePulse(
    {
      metal: steel,
      spot: { profile: "gaussian", radius: 5e-5 },
      energy: 6e-5,
      duration: 1e-7,
      startTemperature: START,
    },
    { cells: 9, steps },
  );
  return `| ${[steps, r.surfaceRise.toFixed(1), (r.meltDepth * 1e6).toFixed(3), r.energyRatio.toFixed(5)].join(" | ")} |`;
});

/** Sentences for the cases that do not agree, gathered by what they share. */
function outside(cases: readonly Judged[]): string {
  const off = cases.filter((c) => !(peakAgrees(c.referee, c.fast) && meltAgrees(c.referee, c.fast)));
  const say = (part: readonly Judged[], why: string) =>
    part.length === 0
      ? []
      : [
          `- ${part.length} cases: ${why} (${[...new Set(part.map((c) => `${c.metal} ${(c.spot * 1e3).toFixed(2)} mm ${c.speed === null ? `${((c.duration ?? 0) * 1e9).toFixed(0)} ns` : `${c.speed} m/s`} ×${c.over}`))].join("; ")}).`,
        ];
  const boiling = off.filter((c) => c.boils);
  const near = off.filter((c) => !c.boils && c.over < 1.3 && c.over > 1);
  const rest = off.filter((c) => !boiling.includes(c) && !near.includes(c));
  return (
    [
      ...say(
        boiling,
        "the surface boils; neither side computes metal that is thrown out, and the melt depth is no more than its order",
      ),
      ...say(near, "melting has only just begun, so that one per cent of power moves the depth by five to ten"),
      ...say(rest, "outside without one of these reasons"),
    ].join("\n") || "None."
  );
}
const count = (cases: readonly Judged[], side: "fast" | "columnOnly") =>
  `peak rise within 5 % in ${cases.filter((c) => peakAgrees(c.referee, c[side])).length}, melt depth within 15 % in ${cases.filter((c) => meltAgrees(c.referee, c[side])).length} of ${cases.length}`;
const worst = Math.max(...lines.map((c) => Math.abs(c.referee.energyRatio - 1)));

writeFileSync(
  "docs/referee.md",
  `# The referee

Written by \`npm run referee\` (${((performance.now() - began) / 1000).toFixed(0)} s on one core when this was written). A direct three-dimensional enthalpy solver
(src/referee: finite volumes, temperature-dependent properties, latent heats of melting and boiling, no lateral factor,
no linear column) against the fast model on bare metal, central values of the library, Gaussian spots, start 293 K.
"fast" is what a prediction uses, the column joined to the limit of settled heat (\`spreadResponse\`); "column only" is the
column times the lateral factor with the column's own melt depth, to show what the joining does. Power is in units of the fast model's melting power.
Both limits of the joining are exact; its exponents (1.5 and 2) were fitted to these very cases, so that for the joining
the table shows how well a form with two constants fits, not a blind test. Melt flow, keyholes and vapour pressure
are on neither side.

## Summary

- Moving spots, fast model: ${count(lines, "fast")}.
- Moving spots, column only: ${count(lines, "columnOnly")}.
- Single pulses, fast model (no joining): ${count(pulses, "fast")}.
- Largest energy gap of a line: ${(worst * 100).toFixed(2)} %. It sits in the far field at low v·w/D, where sweeps settle last (they stop after 1800); the crest there meets the exact integral, see the first table below.

Outside:

${outside([...lines, ...pulses])}

## How far the referee itself may be trusted

Highest rise of a moving Gaussian beam, constant properties, against the exact integral (Cline and Anthony 1977), by cells per spot radius:

| v·w/D | 7 (used below 3) | 10 (used above 3) |
|---|---|---|
${exactRows.join("\n")}

Low-carbon steel, 0.2 mm spot, 0.5 m/s, 55 W absorbed, by cells per spot radius:

| cells | all cells | rise K | melt depth µm | melt width µm | energy ratio | sweeps |
|---|---|---|---|---|---|---|
${gridRows.join("\n")}

Low-carbon steel, 0.1 mm spot, 100 ns, 60 µJ absorbed, by steps through the pulse:

| steps | rise K | melt depth µm | energy ratio |
|---|---|---|---|
${stepRows.join("\n")}

## Moving spots

Lines with equal v·w and P/w are one problem scaled by the spot, so each such problem was solved once.

${refereeTable(lines)}

## Single pulses

${refereeTable(pulses)}
`,
);
console.log(`docs/referee.md, ${((performance.now() - began) / 1000).toFixed(0)} s`);
