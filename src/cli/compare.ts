import { answerOnThreads } from "#compute";
import { adviceToWire, comparisonToWire, surveyToWire, triageToWire } from "#contract";
import { twoEdgeBarText, twoEdgeTextLegend } from "#drawing";
import { settingLine } from "#report";
import type { Comparison, MeasurementAdvice, SetupVerdict, Triage } from "#terms";
import { carried, MODEL_VERSION, partCautions } from "#workflows";
import { carriedLines, carriedNotes, knownBeliefs } from "./known.ts";
import { loadPart, type PhysicsFlags, requireMetal } from "./load.ts";
import { type SweepFlags, withProgress } from "./progress.ts";
import { cautionLines, json } from "./show.ts";

/** `compare`: every set-up on one part. */
export async function compareVerb(flags: PhysicsFlags & SweepFlags): Promise<string> {
  const { library, enquiry, part } = await loadPart(flags);
  requireMetal(part);
  const beliefs = await knownBeliefs(flags.known);
  const answer = await withProgress(flags, (run) =>
    answerOnThreads(
      { ...enquiry, parts: [part] },
      { seed: flags.seed, drawCount: flags.draws, setups: library.setups, trials: [], beliefs },
      run,
    ),
  );
  const { verdicts, comparison, advice, triage } = answer.parts[0];
  const lead = verdicts.find((v) => v.best !== null);
  const earlier = { carried: carried(beliefs, part) };
  const cautionsOf = (id: string) => partCautions(part, library.setup(id));
  if (flags.json) {
    return json({
      ...surveyToWire(part.id, verdicts, cautionsOf, MODEL_VERSION),
      triage: triageToWire(triage),
      comparison: comparison && comparisonToWire(comparison, cautionsOf),
      advice: advice.map(adviceToWire),
      ...(flags.known === undefined ? {} : { earlierTrials: carriedNotes(flags.known, earlier) }),
    });
  }
  const cautions = lead ? cautionsOf(lead.setupId) : [];
  const survey = surveyLines(triage, verdicts, comparison, advice);
  return [part.name, ...survey, ...carriedLines(flags.known, earlier), "", ...cautionLines(cautions)].join("\n");
}

export function surveyLines(
  verdict: Triage,
  verdicts: readonly SetupVerdict[],
  comparison: Comparison | null,
  advice: readonly MeasurementAdvice[],
): string[] {
  const lines = [`triage: ${verdict.verdict}`, ...verdict.reasons.map((r) => `  ${r}`), "", twoEdgeTextLegend];
  for (const v of verdicts) {
    lines.push(`${v.setupId.padEnd(16)} ${twoEdgeBarText(v.bar, 60)}`, `  ${v.reason}`);
    if (v.best && v.windowExists) lines.push(`  ${settingLine(v.best.setting)}`);
  }
  if (comparison) lines.push("", comparison.eachAtBest.sentence, comparison.equalPower.sentence);
  if (advice.length > 0) {
    lines.push("", "What would narrow the answer most");
    for (const a of advice.slice(0, 4))
      lines.push(
        `  ${a.measurement}${a.spreadRemoved > 0 ? `: about ${Math.round(100 * a.spreadRemoved)} % of the spread` : ""}. ${a.why}`,
      );
  }
  return lines;
}
