import { useEffect, useRef } from "react";
import { linkTo, type StepId, stepIds } from "../app/route.ts";
import { words } from "../words/index.ts";
import type { Fill, StepState } from "./step-states.ts";

interface Props {
  readonly enquiryId: string;
  readonly partId: string;
  readonly now: StepId;
  readonly states: Readonly<Record<StepId, StepState>>;
}

export function StepList({ enquiryId, partId, now, states }: Props) {
  const list = useRef<HTMLOListElement>(null);
  // On a phone the steps are a strip: keep the present one in sight.
  useEffect(() => {
    const strip = list.current;
    const here = strip?.querySelector<HTMLElement>(`[data-step="${now}"]`);
    if (strip && here)
      strip.scrollLeft = here.offsetLeft - strip.offsetLeft - (strip.clientWidth - here.offsetWidth) / 2;
  }, [now]);
  return (
    <nav className="steps" aria-label={words.steps.label}>
      <ol ref={list}>
        {stepIds.map((step) => (
          <li key={step}>
            <a
              className="step"
              data-step={step}
              href={linkTo({ enquiryId, step, query: { part: partId } })}
              aria-current={step === now ? "step" : undefined}
            >
              <Mark fill={states[step].fill} />
              <span className="name">{words.steps[step]}</span>
              <span className="state">{states[step].words}</span>
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}

/** A patch as the mark: empty, half cleaned, cleaned. */
function Mark({ fill }: { readonly fill: Fill }) {
  return (
    <svg className="mark" viewBox="0 0 20 20" aria-hidden="true">
      <rect x="2.5" y="2.5" width="15" height="15" fill="var(--sheet)" stroke="var(--rule-strong)" />
      {fill === "none" ? null : (
        <rect
          x="2.5"
          y={fill === "full" ? 2.5 : 10}
          width="15"
          height={fill === "full" ? 15 : 7.5}
          fill="var(--accent)"
        />
      )}
    </svg>
  );
}
