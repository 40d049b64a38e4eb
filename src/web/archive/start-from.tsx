import type { ArchiveHit } from "../api/archive.ts";
import { words } from "../words/index.ts";
import { CopyPart } from "./copy-part.tsx";
import type { Goal } from "./goal.ts";
import { TakeSetting } from "./take-setting.tsx";

const say = words.archive;

interface Props {
  readonly hit: ArchiveHit;
  readonly goal: Goal | null;
}

/** Two ways on from a kept trial: its part as a new enquiry, or its setting for a part that is being worked on. */
export function StartFrom({ hit, goal }: Props) {
  return (
    <div className="stack">
      <p className="note">{say.beginning}</p>
      <div className="split">
        {hit.title === null ? null : <CopyPart hit={hit} />}
        <TakeSetting hit={hit} goal={goal} />
      </div>
      {hit.cautions.length > 0 ? (
        <div className="note warn small">
          <strong>{say.cautions}</strong>
          <ul>
            {hit.cautions.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      ) : null}
    </div>
  );
}
