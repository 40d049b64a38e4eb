import type { ReactNode } from "react";
import { linkTo } from "../app/route.ts";
import type { StepId } from "../app/place.ts";
import { noMetals } from "../steps/part/layer-choices.ts";
import { words } from "../words/index.ts";
import type { PartDoc } from "./doc.ts";

/** Steps that are about one setting: none is shown for what is no metal. */
const ofOneSetting: readonly StepId[] = ["setting", "economy"];

interface Props {
  readonly enquiryId: string;
  readonly partId: string;
  readonly part: PartDoc;
  readonly step: StepId;
  readonly children: ReactNode;
}

/** A part that is no metal is declined on every step, and no setting is shown for it. */
export function JudgedOnly({ enquiryId, partId: id, part, step, children }: Props) {
  if (step === "part" || !noMetals.includes(part.material ?? "")) return children;
  return (
    <>
      {ofOneSetting.includes(step) ? <h1>{words.steps[step]}</h1> : null}
      <div className="note bad">
        <p>{words.part.declined}</p>
        <p>
          <a href={linkTo({ enquiryId, step: "part", query: { part: id } })}>{words.part.toPart}</a>
        </p>
      </div>
      {ofOneSetting.includes(step) ? null : children}
    </>
  );
}
