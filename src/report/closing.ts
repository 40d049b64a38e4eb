import { isSource, sources } from "#sources";
import type { PartAnswer, Prediction } from "#terms";
import { jobCautions } from "./cautions.ts";
import type { ReportInput } from "./input.ts";
import type { Section } from "./model.ts";

/** Safety, sources, and what it takes to work the same report again. */
export function closingSections(input: ReportInput): Section[] {
  const { answer } = input;
  const hazard = input.hazard ?? [];
  const caveats = [...new Set(answer.parts.flatMap((part) => predictions(part).flatMap((p) => p.caveats)))];
  return [
    {
      id: "safety",
      heading: "Hazards and cautions",
      level: 2,
      blocks: [
        hazard.length > 0
          ? { kind: "facts", rows: hazard }
          : { kind: "text", words: "Hazard distances and eyewear were not worked out for this report." },
        { kind: "cautions", items: jobCautions(input) },
      ],
    },
    {
      id: "caveats",
      heading: "What the prediction leaves out",
      level: 2,
      blocks: [
        { kind: "list", items: caveats.length > 0 ? caveats : ["No caveat was recorded with the predictions."] },
      ],
    },
    { id: "sources", heading: "Sources", level: 2, blocks: [{ kind: "list", items: citations(input) }] },
    {
      id: "reproduce",
      heading: "To work this report again",
      level: 2,
      blocks: [
        {
          kind: "facts",
          rows: [
            { name: "enquiry", value: answer.enquiry.id },
            { name: "model version", value: answer.modelVersion },
            { name: "seed", value: String(answer.seed), note: `${answer.drawCount} draws of the physics` },
            ...answer.parts.flatMap((part) =>
              part.trials.map(({ trial }) => ({
                name: `trial ${trial.id}`,
                value: `seed ${trial.seed}`,
                note: `design ${trial.design}, model ${trial.modelVersion}`,
              })),
            ),
          ],
        },
      ],
    },
  ];
}

function predictions(part: PartAnswer): Prediction[] {
  return part.verdicts.flatMap((v) => (v.best === null ? [] : [v.best]));
}

/** Every source that a prediction of this report names, in the order of first use. */
function citations(input: ReportInput): string[] {
  const used = [...new Set(input.answer.parts.flatMap((part) => predictions(part).flatMap((p) => p.sources)))];
  if (used.length === 0) return ["No prediction in this report names a source."];
  return used.map((id) => {
    const known = input.citations?.[id] ?? (isSource(id) ? sources[id]!.citation : null);
    return known === null ? `${id}: not in the bibliography.` : known;
  });
}
