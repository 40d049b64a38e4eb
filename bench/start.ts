import { execFileSync, spawnSync } from "node:child_process";
import { join } from "node:path";
import { root } from "./example.ts";
import { type Piece, piece } from "./measure.ts";

/** CPU seconds that a child process took, from a helper process that reports what its own children used. */
function childCpu(args: readonly string[]): number {
  const script = `require("node:child_process").spawnSync(process.execPath, ${JSON.stringify(args)}, { stdio: "ignore" });
const used = require("node:fs").readFileSync("/proc/self/stat", "utf8").split(" ").slice(15, 17);
process.stdout.write(String(used.reduce((sum, ticks) => sum + Number(ticks), 0) / 100));`;
  const times = Array.from({ length: 7 }, () =>
    Number(spawnSync(process.execPath, ["-e", script], { encoding: "utf8" }).stdout),
  );
  return times.sort((a, b) => a - b)[3] as number;
}

export const startPieces: readonly Piece[] = [
  piece("cli-start", "<= 0.3 s", "an empty Node.js start", () => {
    execFileSync(process.execPath, [join(root, "scripts/ready.mjs"), "build"], { stdio: "ignore" });
    return { cpu: childCpu([join(root, "dist/cli/start.mjs"), "--help"]), reference: childCpu(["-e", "0"]) };
  }),
];
