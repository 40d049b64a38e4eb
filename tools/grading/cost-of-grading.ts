import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type FindMarkers, gradeCoupon, lookAtPhoto } from "#grading";
import { median } from "#numerics";
import { decodePhoto } from "#photos";
import { shoot } from "./graded-plate.ts";
import { largest, plateCase } from "./plate-cases.ts";
import { bundledChild } from "./bundle-child.ts";
import { timeByStage } from "./stages.ts";

/** What one photograph of twelve megapixels with 60 patches costs. */
export interface Cost {
  /** CPU seconds to decode and look at one photograph, warm; and to grade the coupon from four of them */
  readonly perPhoto: number;
  readonly gradeFour: number;
  /** MB, peak resident memory of a fresh process that grades four; null where it failed */
  readonly memory: number | null;
  /** s by stage, of looking at four and grading them */
  readonly stages: ReadonlyMap<string, number>;
}

const cpuSince = (start: NodeJS.CpuUsage): number => {
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
};
const least = 5;

/** Four photographs of the seed's plate, in glare, are taken first and not counted. */
export async function costOfGrading(seed: number, findMarkers: FindMarkers): Promise<Cost> {
  const one = plateCase(seed, true, largest);
  const { files } = await shoot(one);
  const look = async (file: Uint8Array) => {
    const { photo } = await decodePhoto(file);
    return lookAtPhoto("photo", photo, [one.plan], findMarkers);
  };
  const times: number[] = [];
  // The first is for warming up.
  for (let k = 0; k <= least; k += 1) {
    const start = process.cpuUsage();
    await look(files[k % files.length]!);
    if (k > 0) times.push(cpuSince(start));
  }
  let gradeFour = 0;
  const stages = await timeByStage(async () => {
    const looks = [];
    for (const file of files) looks.push(await look(file));
    const start = process.cpuUsage();
    gradeCoupon(one.plan, looks);
    gradeFour = cpuSince(start);
  });
  return { perPhoto: median(times), gradeFour, memory: peakOfChild(await bundledChild(), seed, files), stages };
}

/** The child gets files, as a user's process does; the generator stays here. */
function peakOfChild(child: string, seed: number, files: readonly Uint8Array[]): number | null {
  const folder = mkdtempSync(join(tmpdir(), "grading-"));
  try {
    const paths = files.map((_, k) => join(folder, `${k}.jpg`));
    for (const [k, file] of files.entries()) writeFileSync(paths[k]!, file);
    const { status, stdout, stderr } = spawnSync(process.execPath, [child, String(seed), ...paths], {
      encoding: "utf8",
    });
    const peak = Number(stdout.trim());
    if (status === 0 && Number.isFinite(peak)) return peak;
    console.error(stderr);
    return null;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
