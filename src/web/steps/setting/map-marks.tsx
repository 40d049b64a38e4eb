import type { OutcomeState } from "#drawing";
import { outcomeState, outcomeWords } from "#drawing";
import type { Acceptance, Setting } from "#terms";
import type { MapAxis } from "#workflows";
import type { TrialRecord } from "../../api/trials.ts";
import { seenPatches } from "../../show/seen-patches.ts";
import { words } from "../../words/index.ts";
import { shareOf } from "./pad-geometry.ts";

/** A patch that was burned, or a setting that was found best, at its place among all controls. */
export interface PlacedMark {
  readonly id: string;
  readonly setting: Setting;
  readonly state: OutcomeState | "best";
}

/** Patches of the part's trials on one laser with what became of them, and the best settings that are known. */
export function marksOf(
  trials: readonly TrialRecord[],
  setupId: string,
  acceptance: Acceptance | null,
  best: readonly Setting[],
): PlacedMark[] {
  const burned = trials
    .filter((t) => t.trial.setupId === setupId)
    .flatMap(({ trial, outcomes }) => {
      const seen = new Map(seenPatches(outcomes).map((o) => [o.patch, o]));
      return trial.patches.flatMap((p): PlacedMark[] => {
        if (p.setting === null) return [];
        const outcome = seen.get(p.patch);
        const state = outcome && acceptance ? outcomeState(outcome, acceptance) : "unknown";
        return [{ id: `${trial.id} ${p.patch}`, setting: p.setting, state }];
      });
    });
  return [...burned, ...best.map((setting, i): PlacedMark => ({ id: `best ${i}`, setting, state: "best" }))];
}

/** Marks on the map, each a shape of its own as on the printed one; those beyond its sides are left out. */
export function MapMarks({
  marks,
  x,
  y,
}: {
  readonly marks: readonly PlacedMark[];
  readonly x: MapAxis;
  readonly y: MapAxis;
}) {
  const inside = (axis: MapAxis, value: number | null): value is number =>
    value !== null && value >= (axis.values[0] ?? 0) && value <= (axis.values.at(-1) ?? 0);
  return marks.map(({ id, setting, state }) => {
    const [across, up] = [setting[x.control], setting[y.control]];
    if (!inside(x, across) || !inside(y, up)) return null;
    return (
      <svg
        key={id}
        className={`pad-mark ${state}`}
        viewBox="-7 -7 14 14"
        style={{ left: `${100 * shareOf(x, across)}%`, top: `${100 * (1 - shareOf(y, up))}%` }}
        aria-hidden="true"
      >
        <Shape state={state} />
      </svg>
    );
  });
}

function Shape({ state }: { readonly state: PlacedMark["state"] }) {
  switch (state) {
    case "good":
      return <circle r="4.6" />;
    case "residue":
      return <path d="M0 -5.3L5 4H-5Z" />;
    case "damaged":
      return (
        <>
          <path className="halo" d="M-4.5 -4.5L4.5 4.5M4.5 -4.5L-4.5 4.5" />
          <path className="cross" d="M-4.5 -4.5L4.5 4.5M4.5 -4.5L-4.5 4.5" />
        </>
      );
    case "best":
      return <path d="M0 -6L6 0L0 6L-6 0Z" />;
    case "unknown":
      return <circle className="ring" r="4" />;
  }
}

/** How many of each mark there are, in words, for those who do not see the map. */
export function marksText(marks: readonly PlacedMark[]): string {
  const count = (state: PlacedMark["state"]) => marks.filter((m) => m.state === state).length;
  const parts = (["good", "residue", "damaged", "unknown"] as const)
    .filter((state) => count(state) > 0)
    .map((state) => `${count(state)} ${outcomeWords[state].words}`);
  return parts.length === 0 ? words.live.noMarks : words.live.marks(parts.join(", "));
}
