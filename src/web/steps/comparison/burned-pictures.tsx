import { Anchor } from "@mantine/core";
import type { EvidenceSideWire, GradingWire } from "#contract";
import { photoUrl } from "../../api/photographs.ts";
import type { TrialRecord } from "../../api/trials.ts";
import { linkTo } from "../../app/route.ts";
import { useGradings } from "../../photographs/use-gradings.ts";
import { words } from "../../words/index.ts";

const say = words.comparison;

interface Props {
  readonly enquiryId: string;
  readonly partId: string;
  readonly trials: readonly TrialRecord[];
  readonly pulsed: EvidenceSideWire | null;
  readonly continuous: EvidenceSideWire | null;
}

/** The coupons of both sides as they were photographed, side by side. */
export function BurnedPictures({ enquiryId, partId, trials, pulsed, continuous }: Props) {
  const left = useGradings(pulsed?.trial ?? "");
  const right = useGradings(continuous?.trial ?? "");
  const none = (pulsed === null || left?.length === 0) && (continuous === null || right?.length === 0);
  const column = (side: EvidenceSideWire | null, title: string, records: typeof left) => (
    <div className="stack">
      <h3>{side === null ? `${title}: ${say.notTried}` : `${title}: ${side.name}`}</h3>
      {(records ?? []).map(({ grading }) => (
        <BurnedCoupon
          key={grading.id}
          grading={grading}
          laser={side?.name ?? title}
          trial={trials.find((t) => t.trial.id === grading.trial) ?? null}
        />
      ))}
      {side !== null && records?.length === 0 ? <p className="quiet small">{say.notGraded}</p> : null}
    </div>
  );
  return (
    <section className="sheet stack">
      <header className="stack tight">
        <h2>{say.photographs}</h2>
        <p className="quiet small">{none ? say.photographsNone : say.photographsLead}</p>
      </header>
      {none ? (
        <p>
          <Anchor href={linkTo({ enquiryId, step: "results", query: { part: partId } })}>{say.toResults}</Anchor>
        </p>
      ) : (
        <div className="burned">
          {column(pulsed, say.pulsed, left)}
          {column(continuous, say.continuous, right)}
        </div>
      )}
    </section>
  );
}

interface CouponProps {
  readonly grading: GradingWire;
  readonly laser: string;
  readonly trial: TrialRecord | null;
}

function BurnedCoupon({ grading, laser, trial }: CouponProps) {
  const coupon = trial?.trial.coupons.find((c) => c.coupon === grading.coupon);
  const label = coupon?.label ?? String(grading.coupon);
  const count = (...verdicts: string[]) =>
    grading.patches.filter((p) => p.verdict !== null && verdicts.includes(p.verdict)).length;
  return (
    <figure className="stack tight">
      {grading.flat === null ? (
        <p className="quiet small">{say.noPicture}</p>
      ) : (
        <img
          className="burned-coupon"
          src={photoUrl(grading.flat)}
          alt={say.picture(label, laser)}
          // One scale for all: a larger plate is a larger picture.
          style={coupon ? { width: `${100 * Math.min(1, coupon.width / 0.15)}%` } : undefined}
        />
      )}
      <figcaption className="small">
        <strong>{say.coupon(label)}</strong>{" "}
        <span className="quiet">
          {say.tally(count("clean"), count("residue"), count("near the limit", "not settled"))}
        </span>
      </figcaption>
    </figure>
  );
}
