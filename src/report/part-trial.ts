import { outcomeState, outcomeWords, type OutcomeState } from "#drawing";
import type { Outcome, PartAnswer, PlannedPatch, Trial } from "#terms";
import { formatQuantity } from "#units";
import { partCautions } from "./cautions.ts";
import { setupNameOf } from "./evidence.ts";
import type { GradedFigure, ReportInput } from "./input.ts";
import { productionDrift } from "#window";
import type { Block, Column, Section } from "./model.ts";
import { windowBlocks } from "./part-window.ts";
import { conditionWords, notMeasured, plural, share, waitText } from "./wording.ts";

type Run = PartAnswer["trials"][number];

/** What was planned, what was seen, and the window that follows, one section per trial. */
export function trialSections(part: PartAnswer, input: ReportInput): Section[] {
  const id = part.part.id;
  if (part.trials.length === 0) {
    const words = "No trial has been planned: everything said of this part is predicted, nothing is proven.";
    return [{ id: `${id}-trial`, heading: "Trial", level: 3, blocks: [{ kind: "text", words }] }];
  }
  return part.trials.flatMap((run, index) => [
    { id: `${id}-trial-${index}`, heading: `Trial ${run.trial.id}`, level: 3, blocks: trialBlocks(part, run, input) },
    {
      id: `${id}-window-${index}`,
      heading: `Window of trial ${run.trial.id}`,
      level: 3,
      blocks: windowBlocks({
        partId: id,
        run,
        seen: states(part, run),
        drift: input.drift ?? productionDrift,
        cautions: partCautions(part.part, input),
      }),
    },
  ]);
}

function states(part: PartAnswer, run: Run): Record<number, OutcomeState> {
  return Object.fromEntries(run.outcomes.map((o) => [o.patch, outcomeState(o, part.part.acceptance)]));
}

function trialBlocks(part: PartAnswer, run: Run, input: ReportInput): Block[] {
  const { trial, outcomes } = run;
  const cautions = partCautions(part.part, input);
  const seen = states(part, run);
  const burned = trial.patches.filter((p) => p.setting !== null).length;
  const blocks: Block[] = [
    {
      kind: "text",
      words: `${setupNameOf(part, trial.setupId)}; design: ${trial.design}; ${plural(burned, "patch", "patches")} with settings, ${outcomes.length} graded; run order drawn from seed ${trial.seed}.`,
    },
    { kind: "list", items: planWords(trial) },
  ];
  for (const coupon of trial.coupons)
    blocks.push({
      kind: "figure",
      id: `${part.part.id}-${trial.id}-coupon-${coupon.coupon}`,
      caption: `Coupon ${coupon.label}, patches with their outcome.`,
      drawing: { kind: "coupon", trial, coupon, outcomes: seen },
    });
  for (const graded of (input.graded ?? []).filter((g) => g.trialId === trial.id))
    blocks.push(...gradedBlocks(graded, part));
  const waits = trial.patches.some((p) => (p.wait ?? 0) > 0);
  const columns: Column[] = [
    { name: "patch", align: "right", share: 7 },
    { name: "run", align: "right", share: 6 },
    ...(waits ? ([{ name: "wait", align: "right", share: 8 }] as const) : []),
    { name: "setting", align: "left", share: waits ? 30 : 34 },
    { name: "residue", align: "right", share: 13 },
    { name: "metal condition", align: "left", share: 18 },
    { name: "outcome", align: "left", share: 24 },
  ];
  const byPatch = new Map(outcomes.map((o) => [o.patch, o]));
  const ordered = trial.patches.toSorted((a, b) => a.patch - b.patch);
  const rows = ordered.map((patch) => patchRow(patch, ordered, byPatch.get(patch.patch), seen[patch.patch], waits));
  const waited = waits ? "; wait so long after the burn before" : "";
  blocks.push({
    kind: "table",
    caption: `Patches: what differs between settings, and what was seen${waited}`,
    columns,
    rows,
    cautions,
  });
  return blocks;
}

/** A coupon as photographed, with what was read and what people said of it. */
function gradedBlocks(graded: GradedFigure, part: PartAnswer): Block[] {
  const { coupon, patches, photo, read, photographs, looked, overruled } = graded;
  const tests = patches.filter((p) => !p.reference);
  const unsettled = tests.filter((p) => p.verdict === "not settled").length;
  const people =
    looked === 0
      ? "no person has looked at the readings yet"
      : `a person looked at ${looked} of ${tests.length} readings and overruled ${overruled}`;
  return [
    {
      kind: "figure",
      id: `${part.part.id}-${graded.trialId}-graded-${coupon.coupon}`,
      caption:
        `Coupon ${coupon.label} read from ${read} of ${photographs} photographs; ${people}.` +
        (unsettled > 0 ? ` ${unsettled} not settled: that is not clean.` : "") +
        (photo === null ? " The picture itself is missing." : ""),
      drawing: { kind: "graded-coupon", trial: graded.trialId, coupon, patches, photo },
    },
  ];
}

/** Why these patches, and what keeps the heat of one from the next where the reasons do not say it. */
function planWords({ reasons, spacing }: Trial): readonly string[] {
  return spacing === undefined || reasons.includes(spacing.words) ? reasons : [...reasons, spacing.words];
}

function patchRow(
  patch: PlannedPatch,
  all: readonly PlannedPatch[],
  outcome: Outcome | undefined,
  state: OutcomeState | undefined,
  waits: boolean,
): string[] {
  const run = patch.runOrder === 0 ? "–" : String(patch.runOrder);
  const setting = patch.setting === null ? patch.role.replace("-", " ") : varying(patch, all);
  const again = patch.replicateOf === null ? "" : ` (repeats ${patch.replicateOf})`;
  const measured = (value: string | null): string => (patch.setting === null ? "–" : (value ?? notMeasured));
  return [
    String(patch.patch),
    run,
    ...(waits ? [waitText(patch.wait)] : []),
    setting + again,
    measured(outcome === undefined || outcome.residueFraction === null ? null : share(outcome.residueFraction)),
    measured(outcome === undefined || outcome.metalCondition === null ? null : conditionWords[outcome.metalCondition]),
    state === undefined
      ? patch.setting === null
        ? "reference"
        : outcomeWords.unknown.words
      : outcomeWords[state].words,
  ];
}

const shown = [
  ["power", (s) => s.power, "W", "power"],
  ["level", (s) => s.level, "%", "level"],
  ["duty", (s) => s.duty, "%", "duty"],
  ["frequency", (s) => s.frequency, "kHz", ""],
  ["pulseWidth", (s) => s.pulseWidth, "ns", ""],
  ["speed", (s) => s.speed, "mm/s", ""],
  ["lineSpacing", (s) => s.lineSpacing, "mm", "spacing"],
  ["defocus", (s) => s.defocus, "mm", "defocus"],
] as const satisfies readonly (readonly [
  string,
  (s: NonNullable<PlannedPatch["setting"]>) => number | null,
  string,
  string,
])[];

/** Only the values that differ within the trial; all of them would not fit on a line. */
function varying(patch: PlannedPatch, all: readonly PlannedPatch[]): string {
  const settings = all.flatMap((p) => (p.setting === null ? [] : [p.setting]));
  const parts = shown.flatMap(([, of, unit, name]) => {
    if (new Set(settings.map(of)).size < 2) return [];
    return [`${name} ${formatQuantity(of(patch.setting!), unit, 4)}`.trim()];
  });
  if (new Set(settings.map((s) => s.passes)).size > 1) parts.push(plural(patch.setting!.passes, "pass", "passes"));
  return parts.join(", ") || "as recommended";
}
