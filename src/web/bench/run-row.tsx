import { waitText } from "#report";
import type { RunEntry, Trial } from "#terms";
import { quantityText } from "../show/quantity-text.ts";
import { words } from "../words/index.ts";
import { runText } from "./entry-text.ts";
import { PatchActions } from "./patch-actions.tsx";
import { PatchPlace } from "./patch-place.tsx";
import type { RunLine } from "./run-view.ts";
import type { Bench } from "./use-bench.ts";
import { useWaitLeft, WaitClock } from "./wait-clock.tsx";

interface Props {
  readonly trial: Trial;
  readonly line: RunLine;
  readonly of: number;
  readonly current: boolean;
  readonly open: boolean;
  readonly onOpen: () => void;
  /** the burn that the current patch waits for */
  readonly last: RunEntry | null;
  readonly bench: Bench;
  readonly armed: boolean;
}

const say = words.bench;

/** One patch of the list: closed it says where, what changes and what became of it; open it takes the ticks. */
export function RunRow({ trial, line, of, current, open, onOpen, last, bench, armed }: Props) {
  const { patch, run } = line;
  const coupon = trial.coupons.find((c) => c.coupon === patch.coupon);
  const shown = current || open;
  const mark = `patch-${patch.patch}`;
  const head = (
    <>
      <PatchPlace trial={trial} patch={patch} width={shown ? 112 : 62} />
      <span className="run-name">
        <b>{say.patch(patch.patch)}</b>{" "}
        <span className="small quiet">
          {say.place(line.place, of)}
          {trial.coupons.length > 1 ? ` · ${say.coupon(coupon?.label ?? String(patch.coupon))}` : ""}
          {patch.replicateOf === null ? "" : ` · ${say.replicateOf(patch.replicateOf)}`}
        </span>
        <span className={`run-state ${run.state}`}>{current ? say.now : runText(run)}</span>
        {shown || run.state !== "open" ? null : <ChangeLine line={line} />}
      </span>
    </>
  );
  return (
    <li className={`run-row ${run.state}${current ? " current" : ""}`} aria-current={current ? "step" : undefined}>
      {current ? (
        <div className="run-head">{head}</div>
      ) : (
        <button type="button" className="run-head" aria-expanded={open} aria-controls={mark} onClick={onOpen}>
          {head}
        </button>
      )}
      {shown ? (
        <div id={mark} className="stack tight run-body">
          <p className="small quiet">{say.fromEdges(quantityText(patch.x, "mm"), quantityText(patch.y, "mm"))}</p>
          <Changes line={line} />
          <OpenPatch line={line} last={current ? last : null} bench={bench} armed={armed} current={current} />
        </div>
      ) : null}
    </li>
  );
}

function OpenPatch({
  line,
  last,
  bench,
  armed,
  current,
}: Pick<Props, "line" | "last" | "bench" | "armed" | "current">) {
  const left = useWaitLeft(line.patch, last);
  const { wait } = line.patch;
  return (
    <>
      {current ? (
        <WaitClock wait={last === null ? undefined : wait} left={left} />
      ) : wait !== undefined && wait > 0 ? (
        <p className="small">{say.wait.planned(waitText(wait))}</p>
      ) : null}
      <PatchActions line={line} left={left} bench={bench} armed={armed} />
    </>
  );
}

/** What the operator changes at the controls, large; the whole setting under it. */
function Changes({ line }: { readonly line: RunLine }) {
  const { changes, values } = line;
  const large = changes ?? values;
  return (
    <>
      <h3>{changes === null ? say.setAll : say.changeOnly}</h3>
      {large.length === 0 ? (
        <p>{say.changeNothing}</p>
      ) : (
        <dl className="changes">
          {large.map((v) => (
            <div key={v.name}>
              <dt>{v.name}</dt>
              <dd>
                <b>{v.value}</b>
                {v.before === null ? null : <span className="small was">{say.was(v.before)}</span>}
              </dd>
            </div>
          ))}
        </dl>
      )}
      {changes === null ? null : (
        <details>
          <summary>{say.full}</summary>
          <dl className="setting-text">
            {values.map((v) => (
              <div key={v.name}>
                <dt>{v.name}</dt>
                <dd>{v.value}</dd>
              </div>
            ))}
          </dl>
        </details>
      )}
    </>
  );
}

function ChangeLine({ line }: { readonly line: RunLine }) {
  if (line.changes === null) return <span className="small">{say.setAll}</span>;
  if (line.changes.length === 0) return <span className="small">{say.changeNothing}</span>;
  return (
    <span className="small">{line.changes.map((v) => `${v.name} ${say.to(v.before ?? "", v.value)}`).join("; ")}</span>
  );
}
