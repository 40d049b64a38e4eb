import { Button } from "@mantine/core";
import { memo, useId, useState } from "react";
import type { ArchiveHit } from "../api/archive.ts";
import { linkTo } from "../app/route.ts";
import { SmallStack } from "../enquiries/small-stack.tsx";
import type { LayerDoc } from "../enquiry/doc.ts";
import { SettingText } from "../show/setting-text.tsx";
import { whenText } from "../show/when.ts";
import { words } from "../words/index.ts";
import type { Goal } from "./goal.ts";
import { StartFrom } from "./start-from.tsx";

const say = words.archive;

interface Props {
  readonly hit: ArchiveHit;
  readonly goal: Goal | null;
}

/** One kept trial: what it was burned on, how like it is and why, what it found, and what to do with it. */
export const HitRow = memo(function HitRow({ hit, goal }: Props) {
  const [open, setOpen] = useState(false);
  const panel = useId();
  const link = trialLink(hit, "results");
  const name = capital(hit.stackWords);
  const own = goal?.enquiryId === hit.enquiry && goal.partId === hit.part;
  return (
    <li className="hit" data-row-of>
      <SmallStack layers={hit.layers as readonly LayerDoc[]} />
      <div className="stack tight">
        <h2>
          {link ? (
            <a data-row href={link}>
              {name}
            </a>
          ) : (
            name
          )}
        </h2>
        <p className="small quiet">
          {[
            say.on(hit.laserName ?? hit.laser),
            hit.title === null ? say.noEnquiry : say.of(hit.partName ?? hit.part, hit.title || words.list.untitled),
            say.trial(hit.trial),
            hit.savedAt === null ? "" : say.saved(whenText(hit.savedAt)),
          ]
            .filter(Boolean)
            .join(" · ")}
        </p>
        {hit.words.length > 0 ? (
          <p className="small">
            {capital(hit.words.join(", "))}. {own ? <span className="tag">{say.own}</span> : null}
          </p>
        ) : null}
        <p className="small">{resultText(hit)}</p>
        {hit.recommended ? (
          <div className="stack tight">
            <p className="small">
              <span className={hit.recommended.proven ? "tag good" : "tag"}>
                {hit.recommended.proven ? say.proven : say.notProven}
              </span>
            </p>
            <SettingText setting={hit.recommended.setting} />
          </div>
        ) : (
          <p className="small quiet">{hit.noWindow ? say.noWindow : say.noSetting}</p>
        )}
        <div className="row middle hit-acts">
          {link ? (
            <>
              <a href={link}>{say.openResults}</a>
              {(hit.graded ?? 0) > 0 ? <a href={trialLink(hit, "window") ?? link}>{say.openWindow}</a> : null}
            </>
          ) : null}
          <Button
            variant="default"
            size="compact-sm"
            aria-expanded={open}
            aria-controls={panel}
            onClick={() => setOpen(!open)}
          >
            {say.start}
          </Button>
        </div>
      </div>
      {hit.likeness === null ? null : <Likeness share={hit.likeness} />}
      <div id={panel} className="hit-start" hidden={!open}>
        {open ? <StartFrom hit={hit} goal={goal} /> : null}
      </div>
    </li>
  );
});

function Likeness({ share }: { readonly share: number }) {
  return (
    <p className="likeness">
      <span className="small quiet">{say.likeness}</span>
      <strong>{say.percent(share)}</strong>
      <span className="likeness-bar" aria-hidden="true">
        <span style={{ width: `${100 * share}%` }} />
      </span>
    </p>
  );
}

function trialLink(hit: ArchiveHit, step: "results" | "window"): string | null {
  if (hit.title === null || hit.planned === null) return null;
  return linkTo({ enquiryId: hit.enquiry, step, query: { part: hit.part, trial: hit.trial } });
}

function resultText({ planned, graded, clean, damaged }: ArchiveHit): string {
  const plan = planned === null ? say.noTrial : say.planned(planned);
  const seen =
    graded === null || graded === 0
      ? say.nothingGraded
      : clean === null || damaged === null
        ? say.graded(graded)
        : say.result(graded, clean, damaged);
  return capital(`${plan}, ${seen}.`);
}

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
