// Speed of the main pieces, each beside a reference timed in the same run. Prints a table, writes out/bench.json.
// Usage: npm run bench [-- id ...] measures only the pieces named; their rows replace the old ones in the file.
// npm run bench -- growth measures instead how cost grows, and writes docs/cost-growth.md.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { columnPieces } from "./column.ts";
import { root } from "./example.ts";
import { gradingPieces } from "./grading.ts";
import { measureGrowth } from "./growth.ts";
import { mapPieces } from "./maps.ts";
import type { Row } from "./measure.ts";
import { patchPieces } from "./patch.ts";
import { platePieces } from "./plate.ts";
import { startPieces } from "./start.ts";
import { trialPieces } from "./trial.ts";
import { windowMapPieces } from "./window-map.ts";

const pieces = [
  ...columnPieces,
  ...patchPieces,
  ...mapPieces,
  ...windowMapPieces,
  ...platePieces,
  ...trialPieces,
  ...gradingPieces,
  ...startPieces,
];
const wanted = process.argv.slice(2);
if (wanted[0] === "growth") {
  measureGrowth();
  process.exit(0);
}
for (const id of wanted) {
  if (!pieces.some((p) => p.id === id)) {
    console.error(`invalid piece: ${id} (one of ${pieces.map((p) => p.id).join(", ")})`);
    process.exit(2);
  }
}
const file = join(root, "out/bench.json");
const kept: Row[] = wanted.length > 0 && existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : [];
const rows = new Map(kept.map((row) => [row.id, row]));
console.log("id                       cpu s    reference    ratio   target       reference: what");
for (const p of pieces) {
  if (wanted.length > 0 && !wanted.includes(p.id)) continue;
  const r = await p.measure();
  rows.set(r.id, r);
  console.log(
    `${r.id.padEnd(20)} ${r.cpu_s.toFixed(5).padStart(9)} ${r.reference_cpu_s.toFixed(5).padStart(12)} ${r.ratio.toFixed(4).padStart(8)}   ${r.target.padEnd(12)} ${r.against}`,
  );
}
mkdirSync(join(root, "out"), { recursive: true });
const ordered = pieces.flatMap((p) => rows.get(p.id) ?? []);
writeFileSync(file, `${JSON.stringify(ordered, null, 2)}\n`);
