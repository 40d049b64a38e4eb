import type { GradedCoupon, PhotoPath, WrongReadings } from "#grading";
import type { Trial } from "#terms";
import { formatNumber } from "#units";
import { photoPathWords } from "#workflows";
import type { LookedAt } from "./look-at-photos.ts";

const percent = (share: number): string => `${formatNumber(100 * share, 2)} %`;

function patchLine({ patches, limits }: GradedCoupon, k: number): string {
  const { patch, role, verdict, reading, ruling, outcome } = patches[k]!;
  const { residue, refusals, flags } = reading;
  const share =
    ruling !== null && ruling.residueFraction !== null
      ? `${percent(ruling.residueFraction)} by ${ruling.grader}`
      : residue === null
        ? refusals.map((r) => r.gate).join(", ")
        : `${percent(residue.value)} ± ${percent(residue.uncertainty)}`;
  const grade = outcome?.metalCondition ?? null;
  const harmed = grade !== null && grade > limits.metalConditionMax ? ", more than accepted" : "";
  const metal = grade === null ? "" : `, metal ${grade}${harmed}`;
  const seen = ruling !== null && ruling.residueFraction === null ? `, seen by ${ruling.grader}` : "";
  const look = flags.length === 0 ? "" : `, look: ${flags.map((f) => f.gate).join(", ")}`;
  if (role === "untouched" || role === "cleaned-reference") return `  ${patch}  ${role}`;
  return `  ${patch}  ${verdict}: ${share}${metal}${seen}${look}`;
}

/** What photographs gave, for a terminal. */
export function gradeLines(
  trial: Trial,
  { graded, looks, refused }: LookedAt,
  path: PhotoPath,
  learnt: WrongReadings,
): string[] {
  const out = looks.filter(({ gates }) => gates.length > 0);
  const lines = [
    `Trial ${trial.id}: ${looks.length} photographs looked at, ${looks.length - out.length} read`,
    ...photoPathWords(path),
    ...refused,
    ...out.flatMap(({ photo, gates }) => gates.map(({ sentence }) => `${photo}: ${sentence}`)),
  ];
  for (const coupon of graded) {
    const read = coupon.looks.filter(({ gates }) => gates.length === 0).length;
    lines.push("", `Coupon ${coupon.plan.label}, ${read} photographs read`);
    lines.push(...coupon.notes.map(({ sentence }) => `  ${sentence}`));
    const reasons = new Map(
      coupon.patches.flatMap(({ reading }) => [...reading.refusals, ...reading.flags]).map((g) => [g.gate, g.sentence]),
    );
    lines.push(...coupon.patches.map((_, k) => patchLine(coupon, k)));
    if (reasons.size > 0)
      lines.push("  Of these:", ...[...reasons].map(([gate, sentence]) => `    ${gate}: ${sentence}`));
  }
  if (learnt.looked > 0) {
    lines.push(
      "",
      `${learnt.looked} readings looked at, ${learnt.wrong} on the wrong side: reckon with ${percent(learnt.rate)} wrong ` +
        `(90 %: ${percent(learnt.low)} to ${percent(learnt.high)}); \`window --gradings\` takes that over.`,
    );
  }
  return lines;
}
