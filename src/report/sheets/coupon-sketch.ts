import type { Coupon, Trial } from "#terms";
import { requireFinite, requireInteger, requirePositive } from "#units";
import type { CouponSketch } from "./model.ts";
import type { Speech } from "./speech.ts";
import { fill } from "./words.ts";

/** A coupon as data for a small drawing: where each patch lies, its number, and when it is burned. */
export function couponSketch(trial: Trial, coupon: Coupon, speech: Speech): CouponSketch {
  const said = speech.words.run;
  const patches = trial.patches
    .filter((patch) => patch.coupon === coupon.coupon)
    .map(({ patch, x, y, width, height, role, runOrder }) => {
      const reference = role === "untouched" || role === "cleaned-reference";
      const under = reference
        ? role === "untouched"
          ? said.untouched
          : said.cleaned
        : String(requireInteger("run order", runOrder, 0));
      return {
        patch: requireInteger("patch", patch, 1),
        x: requireFinite("patch, x", x, "m"),
        y: requireFinite("patch, y", y, "m"),
        width: requirePositive("patch, width", width, "m"),
        height: requirePositive("patch, height", height, "m"),
        under,
        reference,
      };
    });
  return {
    label: coupon.label,
    width: coupon.width,
    height: coupon.height,
    patches,
    description: fill(said.sketchDescription, {
      label: coupon.label,
      width: speech.quantity("coupon width", coupon.width, "mm"),
      height: speech.quantity("coupon height", coupon.height, "mm"),
      count: patches.length,
    }),
  };
}
