// Speed of the main pieces, each beside a reference timed in the same run. Prints a table, writes out/bench.json.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { defaultSetting } from "#beam";
import { parseEnquiry } from "#contract";
import { solveColumn } from "#heat";
import { centralSample, createLibrary } from "#library";
import { createPartModel, planOf, patchResults, predict, surveySetups } from "#workflows";
import { explicitColumn, pulseByPulse } from "./reference.ts";

const root = new URL("..", import.meta.url).pathname;
const SEED = 7;

interface Row {
  readonly id: string;
  readonly cpu_s: number;
  readonly reference_cpu_s: number;
  readonly ratio: number;
  readonly target: string;
}

/** Median CPU seconds of one call, over `rounds` rounds of `calls`. */
function cpu(calls: number, rounds: number, work: () => unknown): number {
  work();
  const times: number[] = [];
  for (let r = 0; r < rounds; r++) {
    const before = process.cpuUsage();
    for (let i = 0; i < calls; i++) work();
    const spent = process.cpuUsage(before);
    times.push((spent.user + spent.system) / 1e6 / calls);
  }
  return times.sort((a, b) => a - b)[Math.floor(rounds / 2)];
}

const library = createLibrary([]);
const enquiry = parseEnquiry(JSON.parse(readFileSync(join(root, "examples/enquiry.json"), "utf8")), library);
const part = enquiry.parts[0];
const rows: Row[] = [];
const add = (id: string, cpu_s: number, reference_cpu_s: number, target: string) =>
  rows.push({ id, cpu_s, reference_cpu_s, ratio: cpu_s / reference_cpu_s, target });

const sample = centralSample(part.mixture[0].stack);
const column = () =>
  solveColumn({
    layers: sample.layers.map((l) => ({ ...l, decomposition: null })),
    metal: sample.metal,
    light: (grid) => ({ layerShares: new Float64Array(grid.layerCount).fill(0.3 / grid.layerCount), metalShare: 0.2 }),
    pulse: { fluence: 4e4, duration: 100e-9, shape: "square" },
    startTemperature: 293.15,
    endTime: 300e-9,
  });
const plainColumn = cpu(5, 5, () => explicitColumn(100, 20e-6, 6e-5, 100e-9));
add("column-100", cpu(20, 7, column), plainColumn, "<= 0.002 s (next issue)");

const setup = library.setup("pulsed-500");
const setting = defaultSetting(setup);
const plainPatch = cpu(1, 3, () =>
  pulseByPulse(15e-3, 700, setting.speed / (setting.frequency as number), setting.lineSpacing, 130e-6),
);
add(
  "patch-cold",
  cpu(1, 5, () => predict(createPartModel(part, { seed: SEED, drawCount: 64 }), setup, setting)),
  plainPatch,
  "<= 2 s",
);
const model = createPartModel(part, { seed: SEED, drawCount: 64 });
const plan = planOf(model, setup, setting);
patchResults(model, plan);
let turn = 0;
add(
  "patch-warm",
  cpu(4, 7, () => predict(model, setup, { ...setting, speed: setting.speed * (1 + 0.001 * (turn++ % 50)) })),
  plainPatch,
  "<= 0.03 s (next issue)",
);
add(
  "compare-all",
  cpu(1, 1, () => surveySetups(createPartModel(part, { seed: SEED, drawCount: 64 }), library.setups, enquiry.site)),
  plainPatch,
  "<= 20 s now, <= 5 s next issue",
);

/** CPU seconds that a child process took, from a helper process that reports what its own children used. */
function childCpu(args: readonly string[]): number {
  const script = `require("node:child_process").spawnSync(process.execPath, ${JSON.stringify(args)}, { stdio: "ignore" });
const used = require("node:fs").readFileSync("/proc/self/stat", "utf8").split(" ").slice(15, 17);
process.stdout.write(String(used.reduce((sum, ticks) => sum + Number(ticks), 0) / 100));`;
  const times = Array.from({ length: 7 }, () =>
    Number(spawnSync(process.execPath, ["-e", script], { encoding: "utf8" }).stdout),
  );
  return times.sort((a, b) => a - b)[3];
}
execFileSync(process.execPath, [join(root, "scripts/ready.mjs"), "build"], { stdio: "ignore" });
add("cli-start", childCpu([join(root, "dist/cli/start.mjs"), "--help"]), childCpu(["-e", "0"]), "<= 0.3 s");

console.log("id              cpu s      reference  ratio   target");
for (const r of rows)
  console.log(
    `${r.id.padEnd(15)} ${r.cpu_s.toFixed(5).padStart(9)} ${r.reference_cpu_s.toFixed(5).padStart(10)} ${r.ratio.toFixed(2).padStart(6)}   ${r.target}`,
  );
mkdirSync(join(root, "out"), { recursive: true });
writeFileSync(join(root, "out/bench.json"), `${JSON.stringify(rows, null, 2)}\n`);
console.log("references: column by explicit Euler, patch pulse by pulse on a 700 x 700 grid, an empty Node.js start");
