import { Anchor, Button } from "@mantine/core";
import { captureSteps, frameSheetSvg, printTheme } from "#drawing";
import { couponPlan, couponsWithFrames, type FrameLayout } from "#grading";
import type { Coupon, Trial } from "#terms";
import { InvalidInput } from "#units";
import { saveText } from "../show/save-file.ts";
import { words } from "../words/index.ts";

const say = words.photographs.frames;

/** The sheets that the coupons lie on when they are photographed, and how that is done. */
export function FrameSheets({ trial, stored }: { readonly trial: Trial; readonly stored: boolean }) {
  const sheets = trial.coupons.map((coupon) => ({ coupon, frame: frameOf(trial, coupon) }));
  const first = sheets.find((s) => typeof s.frame !== "string")?.frame;
  return (
    <section className="sheet stack tight">
      <h3>{say.title}</h3>
      <p className="small quiet">{say.lead}</p>
      {sheets.map(({ coupon, frame }) =>
        typeof frame === "string" ? (
          <p key={coupon.coupon} className="note warn">
            {say.none(coupon.label, frame)}
          </p>
        ) : (
          <div key={coupon.coupon} className="row middle">
            <Button
              variant="default"
              size="compact-sm"
              onClick={() =>
                saveText(
                  `${trial.id}.frame-${coupon.coupon}.svg`,
                  frameSheetSvg(frame, { coupon: coupon.label, trial: trial.id, trueSize: true, theme: printTheme }),
                  "image/svg+xml",
                )
              }
            >
              {say.svg(coupon.label)}
            </Button>
            {stored ? (
              <Anchor href={`/api/trials/${encodeURIComponent(trial.id)}/frames/${coupon.coupon}.pdf`} download>
                {say.pdf(coupon.label)}
              </Anchor>
            ) : (
              <span className="small quiet">{say.pdfLater}</span>
            )}
          </div>
        ),
      )}
      {first === undefined || typeof first === "string" ? null : (
        <details>
          <summary>{say.how}</summary>
          <ol className="plain">
            {captureSteps(first).map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </details>
      )}
    </section>
  );
}

/** The frame of a coupon, or why it has none. */
function frameOf(trial: Trial, { coupon }: Coupon): FrameLayout | string {
  if (coupon > couponsWithFrames) return say.noMarkers(couponsWithFrames);
  try {
    return couponPlan(trial, coupon).frame;
  } catch (error) {
    if (error instanceof InvalidInput) return error.message;
    throw error;
  }
}
