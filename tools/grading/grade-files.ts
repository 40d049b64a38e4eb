// Grades a coupon from files, as a fresh process would, and prints the peak of its resident memory in MB.
// Usage: tsx tools/grading/grade-files.ts <seed of the coupon's plan> <file> ...
import { existsSync, readFileSync } from "node:fs";
import { gradeCoupon, lookAtPhoto, type PhotoLook } from "#grading";
import { openMarkerFinder } from "#markers";
import { decodePhoto, markerLibrary } from "#photos";
import { planOf } from "./coupon-plans.ts";

const [seed, ...paths] = process.argv.slice(2);
const plan = planOf(Number(seed), true);
const { findMarkers } = await openMarkerFinder(markerLibrary());
const looks: PhotoLook[] = [];
for (const path of paths) {
  const { photo } = await decodePhoto(new Uint8Array(readFileSync(path)));
  looks.push(lookAtPhoto(path, photo, [plan], findMarkers));
}
const { readings } = gradeCoupon(plan, looks);
if (!readings.some(({ residue }) => residue !== null)) throw new Error("nothing was read");
// What resourceUsage gives would hold the parent's peak as well, since the child is forked from it; kB in both.
const own = existsSync("/proc/self/status")
  ? /VmHWM:\s+(\d+)/.exec(readFileSync("/proc/self/status", "utf8"))?.[1]
  : undefined;
console.log((Number(own ?? process.resourceUsage().maxRSS) / 1024).toFixed(1));
