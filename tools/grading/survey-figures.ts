import { mean, quantile } from "#numerics";
import type { GradedPatch, GradedPlate } from "./graded-plate.ts";
import { areaUnderCurve } from "./melt-curve.ts";

/** Standard deviations of a 90 % interval. */
const ninety = 1.645;

const patchesOf = (plates: readonly GradedPlate[]): GradedPatch[] => plates.flatMap(({ patches }) => patches);
const share = (flags: readonly boolean[]): number | null => (flags.length === 0 ? null : mean(flags.map(Number)));
const least = (list: readonly number[], of: (all: readonly number[]) => number): number | null =>
  list.length === 0 ? null : of(list);

/** L* as read less L* as it is, with the uncertainty that was stated. */
export const lightnessOf = (patches: readonly GradedPatch[]) =>
  patches.flatMap(({ reading: { lightness }, truth, ...rest }) =>
    lightness === null ? [] : [{ ...rest, off: lightness.value - truth.lightness, stated: lightness.uncertainty }],
  );

/** Residue as read less residue as it is; references are left out, since they are right by their making. */
export const residueOf = (patches: readonly GradedPatch[]) =>
  patches.flatMap(({ reading: { residue }, truth, role }) =>
    residue === null || role !== "test" ? [] : [{ off: residue.value - truth.residue, stated: residue.uncertainty }],
  );

/** Errors of a set of plates, all without unit but L*; null where there is nothing to tell. */
export function errorsOf(plates: readonly GradedPlate[]) {
  const patches = patchesOf(plates);
  const lightness = lightnessOf(patches);
  const residue = residueOf(patches);
  const held = (list: readonly { off: number; stated: number }[]) =>
    share(list.map(({ off, stated }) => Math.abs(off) <= ninety * stated));
  const sizes = lightness.map(({ off }) => Math.abs(off));
  const flagged = (p: GradedPatch): boolean => p.reading.flags.some(({ gate }) => gate !== "one photograph");
  const plain = lightnessOf(patches.filter((p) => !flagged(p))).map(({ off }) => Math.abs(off));
  return {
    patches: patches.length,
    lightnessMean: least(
      lightness.map(({ off }) => off),
      mean,
    ),
    lightnessMae: least(sizes, mean),
    lightnessP95: least(sizes, (all) => quantile(all, 0.95)),
    lightnessP95Unflagged: least(plain, (all) => quantile(all, 0.95)),
    flagged: share(patches.map(flagged)),
    lightnessHeld: held(lightness),
    glareP95: least(
      patches.map(({ leastGlare }) => leastGlare),
      (all) => quantile(all, 0.95),
    ),
    residueMean: least(
      residue.map(({ off }) => off),
      mean,
    ),
    residueMae: least(
      residue.map(({ off }) => Math.abs(off)),
      mean,
    ),
    residueP95: least(
      residue.map(({ off }) => Math.abs(off)),
      (all) => quantile(all, 0.95),
    ),
    residueHeld: held(residue),
    meltAuc: areaUnderCurve(patches),
  };
}

/** Photographs refused though nothing is wrong with them, and patches refused on plates without glare. */
export function falseRefusals(plates: readonly GradedPlate[]): string[] {
  return plates.flatMap(({ seed, glare, photos, patches }) => [
    ...photos.flatMap(({ gates, clipped }, k) =>
      gates.filter((gate) => !(gate === "clipped" && clipped)).map((gate) => `plate ${seed}, photograph ${k}: ${gate}`),
    ),
    ...(glare || photos.some(({ gates }) => gates.length > 0)
      ? []
      : patches.flatMap(({ reading }) =>
          reading.refusals.map(({ gate }) => `plate ${seed}, patch ${reading.patch}: ${gate}`),
        )),
  ]);
}

/** Share of open planned markers that were found and used, and the worst place of a patch's centre, mm. */
export function placeFigures(plates: readonly GradedPlate[]) {
  const photos = plates.flatMap((plate) => plate.photos);
  const sum = (of: (p: (typeof photos)[number]) => number) => photos.reduce((all, p) => all + of(p), 0);
  return {
    photos: photos.length,
    markersShare:
      sum((p) => p.used) /
      Math.max(
        1,
        sum((p) => p.open),
      ),
    worstCentre: Math.max(0, ...photos.map((p) => p.worstCentre ?? 0)),
  };
}
