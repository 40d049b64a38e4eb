import type { Delivery, LaserSetup, PartEnquiry, SiteLimits } from "#terms";
import { formatNumber, formatQuantity, requireInteger, requirePositive } from "#units";
import { deliveryFits } from "./delivery-fit.ts";
import { adviseLens, type LensAdvice } from "./lens-advice.ts";
import { tightestRadius } from "./usable-field.ts";

export interface DeliveryAdvice {
  /** null where the site allows none that the set-up offers */
  readonly delivery: Delivery | null;
  readonly lens: LensAdvice | null;
  /** a sentence each for what was chosen */
  readonly reasons: readonly string[];
  /** a sentence for each delivery that was not */
  readonly others: readonly { readonly delivery: Delivery; readonly why: string }[];
  /** assumptions and cautions that go along */
  readonly notes: readonly string[];
}

const deliveryWords: Readonly<Record<Delivery, string>> = {
  scanner: "fixed scanner",
  robot: "robot",
  hand: "hand-held head",
};

/** Why a delivery cannot be had, or null. */
function barred(delivery: Delivery, setup: LaserSetup, site: SiteLimits): string | null {
  if (!setup.deliveries.includes(delivery)) return `${setup.name} is not offered with a ${deliveryWords[delivery]}.`;
  if (site.deliveries.length > 0 && !site.deliveries.includes(delivery))
    return `The site does not allow a ${deliveryWords[delivery]}.`;
  return null;
}

function notesOf(part: DeliveryPart, setup: LaserSetup, site: SiteLimits, delivery: Delivery | null): string[] {
  const notes = [
    `Size taken from the area as a square of ${formatQuantity(Math.sqrt(part.area), "m", 2)}; where hand, scanner and robot part ways is common practice, no source.`,
  ];
  if (part.faces.length === 0) notes.push("Nothing is said about the faces: taken as one flat face.");
  else if (part.faces.some((f) => f.radius === null && (f.kind === "convex" || f.kind === "concave")))
    notes.push("A curved face has no radius given: it may leave less of the field than is said here.");
  const drawn = setup.ratedPower / setup.wallPlugEfficiency;
  if (site.electricalPowerMax !== null && drawn > site.electricalPowerMax)
    notes.push(
      `The source alone draws about ${formatQuantity(drawn, "kW", 2)}, more than the ${formatNumber(site.electricalPowerMax / 1000, 2)} kVA on site.`,
    );
  if (site.laserPowerMax !== null && setup.ratedPower > site.laserPowerMax)
    notes.push(
      `The site allows ${formatQuantity(site.laserPowerMax, "W", 3)} of laser power: keep the setting below it.`,
    );
  for (const face of part.faces)
    if ((face.kind === "concave" || face.kind === "hole") && (face.radius ?? Infinity) < setup.smallestConcaveRadius)
      notes.push(
        `The head does not reach into the ${face.kind} face of ${formatQuantity(face.radius, "mm", 2)} radius by any of these ways.`,
      );
  if (delivery === "hand")
    notes.push("The operator works within the hazard distances: local law and the laser safety officer decide.");
  else if (delivery !== null && site.enclosed !== true)
    notes.push("Enclose the beam or clear the area: local law and the laser safety officer decide.");
  return notes;
}

export type DeliveryPart = Pick<PartEnquiry, "area" | "count" | "faces">;

/**
 * Delivery and lens for a part on a site with a set-up, and why. Of the deliveries that set-up and site allow, the one
 * that fits best by size (scan fields on the tightest curve), count and kinds of faces; equal fits go to the steadier
 * one: scanner, robot, hand.
 * @param part area m², count, faces (radius m)
 * @param site which deliveries, enclosure, supply (VA)
 * @param setup lenses, deliveries, reach
 * @returns advice with a sentence for each reason
 * Throws InvalidInput when the area is not positive, the count not whole, or a radius not positive.
 * Source: common practice, no source (deliveryRules); usableField for the fields.
 */
export function adviseDelivery(part: DeliveryPart, site: SiteLimits, setup: LaserSetup): DeliveryAdvice {
  const side = Math.sqrt(requirePositive("area", part.area, "m2"));
  requireInteger("count", part.count, 1);
  const radius = tightestRadius(part.faces);
  const { fields } = adviseLens(setup, "scanner", side, radius);
  const fits = deliveryFits({ part, site, fields });
  const open = fits.filter((f) => barred(f.delivery, setup, site) === null);
  const best = open.reduce<(typeof open)[number] | null>((a, b) => (a === null || b.fit > a.fit ? b : a), null);
  const others = fits
    .filter((f) => f.delivery !== best?.delivery)
    .map(({ delivery, why }) => ({ delivery, why: barred(delivery, setup, site) ?? why }));
  const delivery = best?.delivery ?? null;
  const notes = notesOf(part, setup, site, delivery);
  if (best === null)
    return {
      delivery,
      lens: null,
      reasons: ["The site allows none of the ways in which this set-up brings its beam to the part."],
      others,
      notes,
    };
  const lens = adviseLens(setup, best.delivery, side, radius);
  const only = open.length === 1 ? [`Only a ${deliveryWords[best.delivery]} is possible here.`] : [];
  const poor = best.fit === 1 ? ["None of the ways that are possible suits this part well."] : [];
  return { delivery, lens, reasons: [...only, ...poor, best.why, lens.why], others, notes };
}
