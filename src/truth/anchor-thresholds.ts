import type { Setting } from "#terms";
import type { Thresholds, WorldBase } from "./day-edges.ts";
import { lnDamageDrive, lnRemovalDrive, meanPowerOf, rayConditions } from "./ray-conditions.ts";
import { cleanDrive } from "./residue.ts";

/**
 * Thresholds that give the reference setting the wanted edges.
 *
 * With two layers the one that decides has its edge at the wanted place and the other comes off `layerLead` earlier; then
 * all move together until the whole coat is clean there.
 * Units: edges ln power factor on the reference. Range: any finite. Errors: those of beamState. Source: own.
 */
export function anchorThresholds(base: WorldBase, reference: Setting, lnClean: number, lnDamage: number): Thresholds {
  const { laws, shape, setup, acceptance } = base;
  const ray = rayConditions(setup, reference, laws, shape);
  const lnPower = Math.log(meanPowerOf(setup, reference));
  const deciding = laws.upperDecides === 1 ? 0 : laws.layers.length - 1;
  const offsets = laws.layers.map((law, l) => {
    const alone = { ...ray.exposure, layers: [ray.exposure.layers[l]!] };
    const critical = cleanDrive(alone, [law], [0], acceptance.residueMax, 0);
    return -critical - (l === deciding ? 0 : laws.layerLead);
  });
  const together = cleanDrive(ray.exposure, laws.layers, offsets, acceptance.residueMax, 0);
  return {
    offsets,
    lnRemoval: lnRemovalDrive(ray, laws, lnPower + lnClean) - together,
    lnDamage: lnDamageDrive(ray, laws, lnPower + lnDamage),
  };
}
