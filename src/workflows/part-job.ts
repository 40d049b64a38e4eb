import { beamState, lensOf } from "#beam";
import type { Shop } from "#contract";
import {
  adviseDelivery,
  breakEven,
  costCaseOf,
  costSensitivity,
  costSpread,
  type DeliveryAdvice,
  handRate,
  type JobRate,
  publishedRateRange,
  laserMoney,
  payback,
  robotRate,
  scanRate,
  scanTaskOf,
  travelSpeedFor,
} from "#cost";
import type { PartJob } from "#report";
import type { LaserSetup, PartEnquiry, Setting, SiteLimits } from "#terms";
import { formatQuantity } from "#units";

/** Share of the line width that strokes of hand or robot lay over each other (common practice, no source). */
const STROKE_OVERLAP = 0.15;
/** Share of the time at the part with the beam on it, and of rest, by hand (common practice, no source). */
const HAND = { beamOn: 0.7, pauses: 0.15 } as const;
/** m/s and s of a robot on a plain path (common practice, no source). */
const ROBOT = { speedMax: 0.5, strokeEnd: 0.6 } as const;

/** Time of an order by a delivery; a face is taken as a square. */
function rateBy(
  delivery: DeliveryAdvice["delivery"],
  part: PartEnquiry,
  setup: LaserSetup,
  setting: Setting,
  shop: Shop,
): JobRate {
  const side = Math.sqrt(part.area);
  const { handling, preparation, step, programming } = shop.times;
  const { count } = part;
  const lineWidth = Math.min(side, lensOf(setup, setting.lens).fieldSide);
  const travel = travelSpeedFor(lineWidth, setting.speed, setting.lineSpacing, setup.acceleration);
  const strokes = { lineWidth, passes: setting.passes, strokeOverlap: STROKE_OVERLAP, handling, preparation, count };
  if (delivery === "hand")
    return handRate({
      ...strokes,
      area: part.area,
      handSpeed: travel,
      beamOnShare: HAND.beamOn,
      pauseShare: HAND.pauses,
    });
  if (delivery === "robot")
    return robotRate({
      ...strokes,
      width: side,
      height: side,
      travelSpeed: travel,
      travelSpeedMax: ROBOT.speedMax,
      strokeEnd: ROBOT.strokeEnd,
      programming,
    });
  return scanRate({
    ...scanTaskOf(setup, setting, { width: side, height: side, count }),
    stepTime: step,
    handling,
    preparation,
  });
}

/** What published energies of paint removal would give for this power and coat: to stand beside the rate, no prediction. */
function publishedWords({ mixture }: PartEnquiry, meanPower: number): string {
  const thickest = Math.max(
    ...mixture.map(({ stack }) =>
      stack.layers.filter((layer) => !layer.mustStay).reduce((sum, layer) => sum + layer.thickness.value, 0),
    ),
  );
  if (!(thickest > 0)) return "No layer thickness is known to hold published removal energies against.";
  const { slow, fast } = publishedRateRange(meanPower, thickest);
  return (
    `Published paint removal (0.15 to 1.3 J/cm² per µm) would come to ${formatQuantity(slow, "m2/h", 2)} to ` +
    `${formatQuantity(fast, "m2/h", 2)} at this power and thickness: for orientation, not a prediction.`
  );
}

/**
 * Rate, hours and cost of the order of one part with a setting on a set-up.
 * Units: hours h, money as the shop's currency. Errors: InvalidInput of the figures. Sources: those of #cost.
 */
export function partJob(part: PartEnquiry, site: SiteLimits, setup: LaserSetup, setting: Setting, shop: Shop): PartJob {
  const advice = adviseDelivery(part, site, setup);
  const rate = rateBy(advice.delivery, part, setup, setting, shop);
  const given = costCaseOf(setup, beamState(setup, setting).meanPower, shop.inputs, rate);
  const cost = costSpread(given, shop.ranges);
  const laser = laserMoney(given);
  const time = shop.ranges.jobTime ?? { low: 1, high: 1 };
  return {
    advice,
    rate,
    hours: { low: rate.hours * time.low, middle: rate.hours, high: rate.hours * time.high },
    cost,
    sensitivity: costSensitivity(given, shop.ranges),
    breakEven: breakEven(laser, shop.other),
    payback: shop.areaPerYear === null ? null : payback(laser, shop.other, shop.areaPerYear),
    currency: shop.inputs.currency,
    basis: [
      `Figures: ${given.inputs.note}.`,
      "Every face is taken as a square of the area asked for.",
      publishedWords(part, beamState(setup, setting).meanPower),
      ...(rate.delivery === "hand"
        ? [
            "By hand: strokes overlap by 15 %, the beam is on for 70 % of the time at the part, 15 % of the time is rest (common practice, no source).",
          ]
        : []),
      ...(rate.delivery === "robot"
        ? ["By robot: 0.5 m/s at most and 0.6 s at each end of a stroke (common practice, no source)."]
        : []),
      ...rate.notes,
      cost.perArea.note,
    ],
  };
}
