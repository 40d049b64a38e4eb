import { useEffect, useMemo, useRef, useState } from "react";
import { areaRate } from "#beam";
import type { LaserSetup, PlannedPatch, Trial } from "#terms";
import { runProgress } from "#trial";
import { InvalidInput } from "#units";
import { useLibrary } from "../library/use-library.ts";
import { words } from "../words/index.ts";
import { BenchHead } from "./bench-head.tsx";
import { CouponPhotos } from "./coupon-photos.tsx";
import { RunRow } from "./run-row.tsx";
import { runList, timeLeft } from "./run-view.ts";
import type { Bench } from "./use-bench.ts";

const say = words.bench;
/** ms after a tick in which another is not taken: a second touch would hit the patch that moved up */
const REST = 700;

/** The rows in the order to burn them, what is next on top of mind. */
export function BenchList({ trial, bench }: { readonly trial: Trial; readonly bench: Bench }) {
  const { entries, opened } = bench.state;
  const list = useMemo(() => runList(trial, entries), [trial, entries]);
  const progress = useMemo(() => runProgress(trial, entries), [trial, entries]);
  const { setups } = useLibrary();
  const machine = setups.find((s) => s.id === trial.setupId) ?? null;
  const left = useMemo(() => timeLeft(list, entries, burnTimes(machine)), [list, entries, machine]);
  const [openRow, setOpenRow] = useState<number | null>(null);
  const current = list.current?.patch.patch ?? null;
  const armed = useArmed(progress.last?.id ?? null);
  const rows = useRef<HTMLOListElement>(null);
  const before = useRef<number | null>(null);
  useEffect(() => {
    // What is next moves into sight after a tick, not when the page is opened: the cautions come first.
    if (before.current !== null && current !== null && before.current !== current) {
      const row = rows.current?.querySelector<HTMLElement>(".run-row.current");
      row?.scrollIntoView({ block: "start" });
      row?.querySelector<HTMLElement>(".tick")?.focus({ preventScroll: true });
    }
    if (opened) before.current = current;
  }, [current, opened]);
  return (
    <>
      <BenchHead progress={progress} left={left} bench={bench} />
      <section className="stack tight">
        <h2>{say.listTitle}</h2>
        <ol className="run-list" ref={rows}>
          {list.lines.map((line) => (
            <RunRow
              key={line.patch.patch}
              trial={trial}
              line={line}
              of={list.lines.length}
              current={line.patch.patch === current}
              open={openRow === line.patch.patch}
              onOpen={() => setOpenRow(openRow === line.patch.patch ? null : line.patch.patch)}
              last={list.last}
              bench={bench}
              armed={armed}
            />
          ))}
        </ol>
      </section>
      <CouponPhotos trial={trial} bench={bench} />
    </>
  );
}

/** False for a moment after the last tick changed. */
function useArmed(last: string | null): boolean {
  const [seen, setSeen] = useState(last);
  useEffect(() => {
    if (seen === last) return;
    const timer = setTimeout(() => setSeen(last), REST);
    return () => clearTimeout(timer);
  }, [seen, last]);
  return seen === last;
}

/** s that a patch burns on the set-up of its trial; null for a set-up that nobody knows any more. */
function burnTimes(machine: LaserSetup | null): (patch: PlannedPatch) => number | null {
  return ({ setting, width, height }) => {
    if (machine === null || setting === null) return null;
    try {
      return areaRate(machine, setting, { width, height }).total;
    } catch (error) {
      if (error instanceof InvalidInput) return null;
      throw error;
    }
  };
}
