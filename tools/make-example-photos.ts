// Photographs of the first pulsed coupon of the invented hatch covers, as the generator of the tests draws them from the
// outcomes in examples/. Usage: npx tsx tools/make-example-photos.ts. Nothing in them is a photograph of a real plate.
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { parseOutcomesCsv, parseTrial } from "#contract";
import { couponPlan } from "#grading";
import { photograph } from "../tests/photo/photograph.ts";
import { makePlate } from "../tests/photo/plate.ts";
import type { PatchDraw } from "../tests/photo/plate-spec.ts";

const root = new URL("..", import.meta.url).pathname;
const name = "hatch-covers.pulsed";
const seed = 2026;
const size = { width: 1800, height: 1350 };

const trial = parseTrial(JSON.parse(await readFile(join(root, `examples/${name}.trial.json`), "utf8")));
const { accepted } = parseOutcomesCsv(await readFile(join(root, `examples/${name}.outcomes.csv`), "utf8"), trial);
const plan = couponPlan(trial, 1);
const sayPatch: Record<number, Partial<PatchDraw>> = {};
for (const { patch, residueFraction, metalCondition } of accepted) {
  const grade = metalCondition ?? 0;
  sayPatch[patch] = {
    residue: residueFraction ?? 0,
    film: 1,
    haze: 0,
    stripes: null,
    tint: grade >= 1 ? [1, 0.94, 0.8] : [1, 1, 1],
    melt: grade >= 3 ? 0.3 : grade === 2 ? 0.06 : 0,
  };
}
const plate = makePlate({
  seed,
  frame: plan.frame,
  patches: plan.patches,
  metal: "bright aluminium",
  coat: "blue",
  sayPatch,
});
const folder = join(root, "examples/photos", `${name}.coupon-1`);
await mkdir(folder, { recursive: true });
for (const turn of [0, 1, 2, 3] as const) {
  const { jpeg } = await photograph(plate, { seed, turn, ...size, glare: true, say: { covered: null, quality: 86 } });
  if (jpeg === null) throw new Error("no JPEG was made");
  await writeFile(join(folder, `turn-${turn}.jpg`), jpeg);
  console.log(`turn ${turn}: ${jpeg.length} B`);
}
