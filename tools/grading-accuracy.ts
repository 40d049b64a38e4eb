// How well photographs of coupons are graded: generated plates with known truth, through files, markers, light and
// readings as a user gets them. Writes out/grading.json; prints it beside the distribution that it holds for.
// Usage: npm run grading:accuracy [-- --plates n] [--first seed] [--quick]
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openMarkerFinder } from "#markers";
import { markerLibrary } from "#photos";
import { gateCases } from "../tests/grading/bad-photos/gate-cases.ts";
import { statedDistribution } from "../tests/photo/ranges.ts";
import { costOfGrading } from "./grading/cost-of-grading.ts";
import { head, line } from "./grading/figures-text.ts";
import { type GradedPlate, gradePlate, shoot } from "./grading/graded-plate.ts";
import { readOptions } from "./grading/options.ts";
import { plateCase } from "./grading/plate-cases.ts";
import { errorsOf, falseRefusals } from "./grading/survey-figures.ts";
import { figureLines, figuresOf } from "./grading/targets.ts";

const root = new URL("..", import.meta.url).pathname;
const { plates: count, first, quick } = readOptions(process.argv.slice(2));
const { findMarkers } = await openMarkerFinder(markerLibrary());
/** One plate in four lies in glare and is photographed four times: half of the photographs or more. */
const everyWithGlare = 4;

const plates: GradedPlate[] = [];
for (let k = 0; k < count; k += 1) {
  const one = plateCase(first + k, k % everyWithGlare === everyWithGlare - 1);
  const graded = await gradePlate(one, await shoot(one), findMarkers);
  plates.push(graded);
  const refused = graded.photos.flatMap(({ gates }) => gates).join(", ");
  console.log(
    `plate ${k + 1} of ${count}: seed ${one.seed}, ${graded.pair}, ${one.glare ? "glare" : "no glare"}` +
      (refused === "" ? "" : `, photographs refused: ${refused}`),
  );
}

let missed = 0;
for (const { gate, words, fired } of gateCases) {
  const all = await fired(findMarkers);
  if (!all.includes(gate)) missed += 1;
  console.log(`gate ${all.includes(gate) ? "fires" : "MISSED"}: ${gate} (${words}); fired: ${all.join(", ")}`);
}
const cost = quick ? null : await costOfGrading(first, findMarkers);

console.log("\nStated distribution of the photographs (invented plates, not photographs of real coupons):");
for (const words of statedDistribution()) console.log(`  ${words}`);
const dull = plates.filter(({ glare }) => !glare);
const bright = plates.filter(({ glare }) => glare);
console.log(`\n${head()}`);
console.log(line("no glare, one photograph", errorsOf(dull)));
console.log(line("glare, four photographs", errorsOf(bright)));
for (const [kind, some] of [
  ["", dull],
  [", glare", bright],
] as const)
  for (const pair of [...new Set(some.map((p) => p.pair))].sort())
    console.log(line(`${pair}${kind}`, errorsOf(some.filter((p) => p.pair === pair))));
for (const words of falseRefusals(plates)) console.log(`refused falsely: ${words}`);
if (cost !== null) {
  console.log("\nFour photographs of 12 MP with 60 patches, seconds by stage (this thread):");
  for (const [stage, seconds] of cost.stages) console.log(`  ${stage.padEnd(10)} ${seconds.toFixed(2)}`);
  console.log(`  grading the coupon from four looks: ${cost.gradeFour.toFixed(2)} s CPU`);
}
const figures = figuresOf(plates, missed, cost);
console.log(`\n${figureLines(figures).join("\n")}`);
mkdirSync(join(root, "out"), { recursive: true });
writeFileSync(join(root, "out/grading.json"), `${JSON.stringify(figures, null, 2)}\n`);
