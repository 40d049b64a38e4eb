import type { Delivery, LaserSetup, PartEnquiry, SetupVerdict, ShortfallKind, SiteLimits } from "#terms";
import { formatQuantity } from "#units";
import type { PartModel } from "./part-model.ts";
import { predict } from "./predict.ts";
import { rankVerdicts } from "./rank.ts";
import { searchSettings } from "./search.ts";
import { twoEdges } from "./two-edges.ts";

/** A window is said to exist where the best setting is likelier than not to be clean and undamaged. */
const WINDOW_SHARE = 0.5;

export interface SurveyOptions {
  readonly onProgress?: (done: number, of: number) => void;
}

/** Searches every set-up for one part, best first. */
export function surveySetups(
  model: PartModel,
  setups: readonly LaserSetup[],
  site: SiteLimits,
  options: SurveyOptions = {},
): SetupVerdict[] {
  const verdicts = setups.map((setup, i) => {
    const verdict = surveySetup(model, setup, site, null);
    options.onProgress?.(i + 1, setups.length);
    return verdict;
  });
  return rankVerdicts(verdicts);
}

/** Searches one set-up and says what it can do, or why it falls short. */
export function surveySetup(
  model: PartModel,
  setup: LaserSetup,
  site: SiteLimits,
  powerMax: number | null,
): SetupVerdict {
  const cap = smaller(powerMax, site.laserPowerMax);
  const { best } = searchSettings(model, setup, { seed: model.seed, powerMax: cap });
  const delivery = deliveryFor(setup, site);
  if (!best) {
    return {
      setupId: setup.id,
      setupName: setup.name,
      kind: setup.kind,
      windowExists: false,
      best: null,
      bar: {
        axis: setup.kind === "pulsed" ? "fluence" : "dose",
        removalEdge: null,
        damageEdge: null,
        reachLow: 0,
        reachHigh: 0,
        best: null,
      },
      shortfall: "not allowed on site",
      reason: "No setting of this set-up fits the limits of the site.",
      areaRate: 0,
      sureness: 0,
      meanPower: 0,
      delivery: delivery ?? "scanner",
    };
  }
  const prediction = predict(model, setup, best.setting);
  const windowExists = prediction.probabilityBoth >= WINDOW_SHARE;
  const shortfall = shortfallOf(model.part, setup, site, prediction, windowExists, delivery);
  return {
    setupId: setup.id,
    setupName: setup.name,
    kind: setup.kind,
    windowExists,
    best: prediction,
    bar: twoEdges(model, setup, best.setting),
    shortfall,
    reason: reasonOf(shortfall, model.part, setup, prediction, windowExists),
    areaRate: prediction.areaRate,
    sureness: prediction.probabilityBoth,
    meanPower: prediction.beam.meanPower,
    delivery: delivery ?? setup.deliveries[0],
  };
}

function smaller(a: number | null, b: number | null): number | null {
  if (a === null) return b;
  return b === null ? a : Math.min(a, b);
}

/** The delivery that the site allows, steadiest first; null when none of the set-up's is allowed. */
function deliveryFor(setup: LaserSetup, site: SiteLimits): Delivery | null {
  const order: readonly Delivery[] = ["scanner", "robot", "hand"];
  return (
    order.find((d) => setup.deliveries.includes(d) && (site.deliveries.length === 0 || site.deliveries.includes(d))) ??
    null
  );
}

/** Faces that the head cannot reach into. */
export function unreachableFaces(part: PartEnquiry, setup: LaserSetup): string[] {
  return part.faces
    .filter(
      (f) => (f.kind === "concave" || f.kind === "hole") && f.radius !== null && f.radius < setup.smallestConcaveRadius,
    )
    .map((f) => `${f.kind} face of ${formatQuantity(f.radius as number, "mm", 3)} radius`);
}

function shortfallOf(
  part: PartEnquiry,
  setup: LaserSetup,
  site: SiteLimits,
  p: {
    probabilityClean: number;
    probabilityUndamaged: number;
    areaRate: number;
    draws: readonly { stayLayerHarmed: number }[];
  },
  windowExists: boolean,
  delivery: Delivery | null,
): ShortfallKind {
  if (delivery === null) return "not allowed on site";
  if (site.electricalPowerMax !== null && setup.ratedPower / setup.wallPlugEfficiency > site.electricalPowerMax)
    return "not allowed on site";
  if (!windowExists) {
    const harmed = p.draws.filter((d) => d.stayLayerHarmed > 0.01).length / p.draws.length;
    if (harmed > 0.5) return "harms the layer that must stay";
    return p.probabilityClean <= p.probabilityUndamaged ? "does not remove" : "melts the metal";
  }
  if (unreachableFaces(part, setup).length > 0) return "cannot reach the face";
  if (part.rateWanted !== null && p.areaRate < part.rateWanted) return "too slow";
  return "none";
}

function reasonOf(
  shortfall: ShortfallKind,
  part: PartEnquiry,
  setup: LaserSetup,
  p: { probabilityClean: number; probabilityUndamaged: number; probabilityBoth: number; areaRate: number },
  windowExists: boolean,
): string {
  const sure = `${Math.round(100 * p.probabilityBoth)} of 100 versions of the physics`;
  switch (shortfall) {
    case "none":
      return `Clean and undamaged in ${sure} at ${formatQuantity(p.areaRate, "m2/h", 2)}.`;
    case "too slow":
      return `Clean and undamaged in ${sure}, but ${formatQuantity(p.areaRate, "m2/h", 2)} is below the ${formatQuantity(part.rateWanted as number, "m2/h", 2)} wanted.`;
    case "cannot reach the face":
      return `Clean and undamaged on open faces in ${sure}, but the head does not reach: ${unreachableFaces(part, setup).join(", ")}.`;
    case "does not remove":
      return `Without harming the metal it removes the layer in only ${Math.round(100 * p.probabilityClean)} of 100 versions of the physics.`;
    case "melts the metal":
      return `Where it removes the layer, the metal changes beyond the acceptance: unharmed in only ${Math.round(100 * p.probabilityUndamaged)} of 100 versions of the physics.`;
    case "harms the layer that must stay":
      return "The layer that must stay gets too hot or is taken off in most versions of the physics.";
    case "not allowed on site":
      return windowExists
        ? "A window is predicted, but the limits of the site exclude this set-up."
        : "The limits of the site exclude this set-up.";
  }
}
