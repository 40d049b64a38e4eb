import { couponSvg, outcomeState, pageTheme } from "#drawing";
import type { Acceptance, Outcome, Trial } from "#terms";
import { seenPatches } from "../../show/seen-patches.ts";
import { SvgPicture } from "../../show/svg-picture.tsx";
import { words } from "../../words/index.ts";

/** The coupons again, coloured and lettered by what was seen. */
export function CouponResults({
  trial,
  outcomes,
  acceptance,
}: {
  readonly trial: Trial;
  readonly outcomes: readonly Outcome[];
  readonly acceptance: Acceptance | null;
}) {
  const states = acceptance
    ? Object.fromEntries(seenPatches(outcomes).map((o) => [o.patch, outcomeState(o, acceptance)]))
    : {};
  return (
    <div className="split">
      {trial.coupons.map((coupon) => (
        <figure key={coupon.coupon} className="sheet">
          <SvgPicture
            svg={couponSvg(trial, coupon, {
              trueSize: false,
              theme: pageTheme,
              id: `results-${trial.id}-${coupon.coupon}`,
              outcomes: states,
              cautions: [],
            })}
            label={words.trial.couponOf(coupon.label)}
            size="full"
          />
        </figure>
      ))}
    </div>
  );
}
