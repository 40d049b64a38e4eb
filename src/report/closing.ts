import { isSource, sources } from "#sources";
import type { PartAnswer, Prediction } from "#terms";
import { jobCautions } from "./cautions.ts";
import type { HazardZone, ReportInput } from "./input.ts";
import type { Block, Fact, Section } from "./model.ts";

/** Safety, sources, and what it takes to work the same report again. */
export function closingSections(input: ReportInput): Section[] {
  const { answer } = input;
  const caveats = [...new Set(answer.parts.flatMap((part) => predictions(part).flatMap((p) => p.caveats)))];
  return [
    {
      id: "safety",
      heading: "Hazards and cautions",
      level: 2,
      blocks: [
        ...zoneBlocks(input.hazardZones ?? []),
        ...hazardBlocks(input.hazard ?? []),
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

/** Hazard zones to scale, with a person for size. */
const zoneBlocks = (zones: readonly HazardZone[]): Block[] =>
  zones.map(({ title, hazards }, k) => ({
    kind: "figure",
    id: `hazard-zone-${k}`,
    caption: `Nominal hazard zone: ${title}. ${hazards.note}`,
    drawing: { kind: "hazard-plan", hazards },
  }));

/** Rows that share a note stand together and the note is said once. */
function hazardBlocks(hazard: readonly Fact[]): Block[] {
  if (hazard.length === 0)
    return [{ kind: "text", words: "Hazard distances and eyewear were not worked out for this report." }];
  const blocks: Block[] = [];
  for (let start = 0; start < hazard.length; ) {
    const note = hazard[start]!.note ?? "";
    let end = start + 1;
    while (end < hazard.length && (hazard[end]!.note ?? "") === note) end++;
    const rows = hazard.slice(start, end);
    if (rows.length < 2 || note === "") blocks.push({ kind: "facts", rows });
    else
      blocks.push(
        { kind: "facts", rows: rows.map(({ name, value }) => ({ name, value })) },
        { kind: "text", words: note },
      );
    start = end;
  }
  return blocks;
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
