import type { PartAnswer, StackLayer } from "#terms";
import { formatQuantity, formatRange, fromSI } from "#units";
import { patchValues } from "./answer-page.ts";
import type { Block, Fact, Section } from "./model.ts";
import { conditionWords, notMeasured, plural, rateText, sentenceCase, share, testWords } from "./wording.ts";

/** What was asked, the stack as it was taken to be, and what triage said. */
export function askedSections(part: PartAnswer): Section[] {
  const { acceptance } = part.part;
  const facts: Fact[] = [
    { name: "material", value: part.part.material },
    { name: "job", value: `${plural(part.part.count, "piece")}, ${formatQuantity(part.part.area, "m2")} each` },
    { name: "faces", value: part.part.faces.map(faceWords).join("; ") || "not stated" },
    {
      name: "residue",
      value: `at most ${share(acceptance.residueMax)} of the area`,
      note: "more than 1 µm or 5 % of the layer left",
    },
    { name: "metal condition", value: `at most ${conditionWords[acceptance.metalConditionMax]}` },
    {
      name: "metal temperature",
      value:
        acceptance.metalTemperatureMax === null
          ? "not limited"
          : `at most ${formatQuantity(acceptance.metalTemperatureMax, "degC")}`,
    },
    { name: "rate wanted", value: part.part.rateWanted === null ? "not stated" : rateText(part.part.rateWanted) },
    { name: "lead", value: part.part.lead },
    { name: "chromate", value: part.part.chromate },
    { name: "unknown", value: part.part.unknowns.join(", ") || "nothing" },
    ...(part.part.assumptions ?? []).map((words) => ({ name: "assumed", value: words })),
  ];
  const id = part.part.id;
  return [
    { id: `${id}-asked`, heading: "What was asked", level: 3, blocks: [{ kind: "facts", rows: facts }] },
    { id: `${id}-stack`, heading: "Stack and triage", level: 3, blocks: stackBlocks(part) },
  ];
}

function faceWords(face: PartAnswer["part"]["faces"][number]): string {
  const radius = face.radius === null ? "" : `, radius ${formatQuantity(face.radius, "mm")}`;
  return `${face.kind}${radius}${face.note === "" ? "" : ` (${face.note})`}`;
}

/** With more stacks than this the likeliest is drawn and all are listed. */
const drawnMost = 2;

function stackBlocks(part: PartAnswer): Block[] {
  const byWeight = part.part.mixture.toSorted((a, b) => b.weight - a.weight);
  const drawn = byWeight.length > drawnMost ? byWeight.slice(0, 1) : byWeight;
  const blocks: Block[] = drawn.map((one, index) =>
    stackFigure(one, `${part.part.id}-stack-${index}`, byWeight.length > 1),
  );
  if (byWeight.length > drawnMost) blocks.push(mixtureTable(byWeight));
  const { verdict, reasons } = part.triage;
  blocks.push({ kind: "text", words: `Triage: ${verdict}.` }, { kind: "list", items: reasons });
  if (part.advice.length > 0)
    blocks.push(
      { kind: "text", words: "Measurements that would narrow the answer most:" },
      {
        kind: "list",
        items: part.advice.map(
          (a) => `${sentenceCase(a.measurement)}: would take away ${share(a.spreadRemoved)} of the spread. ${a.why}`,
        ),
      },
    );
  return blocks;
}

type Weighted = PartAnswer["part"]["mixture"][number];

function stackFigure({ stack, weight, assumption }: Weighted, id: string, assumed: boolean): Block {
  const layers = stack.layers.map((layer) => ({
    name: layer.kind.name,
    thickness_um: fromSI(layer.thickness.value, "um"),
    colour: layerColour(layer),
    mustStay: layer.mustStay,
  }));
  const metalThickness = formatQuantity(stack.metalThickness, "mm");
  const spread = stack.layers.map((l) => `${l.kind.name} ${formatRange(l.thickness.low, l.thickness.high, "um")}`);
  const taken = assumed ? `Assumed with a share of ${share(weight)}: ${assumption}. ` : "";
  const caption = `${taken}Section to scale. Thickness, 5 to 95 %: ${spread.join(", ") || "no layer"}.`;
  const drawing = { kind: "stack", layers, metal: stack.metal.name, metalThickness } as const;
  return { kind: "figure", id, caption, drawing };
}

function mixtureTable(mixture: readonly Weighted[]): Block {
  const columns = [
    { name: "share", align: "right", share: 10 },
    { name: "layers from the top, 5 to 95 % of thickness", align: "left", share: 48 },
    { name: "metal", align: "left", share: 17 },
    { name: "assumed", align: "left", share: 36 },
  ] as const;
  const rows = mixture.map(({ stack, weight, assumption }) => [
    share(weight),
    stack.layers
      .map((l) => `${l.kind.name}, ${l.colour}, ${formatRange(l.thickness.low, l.thickness.high, "um")}`)
      .join("; ") || "bare",
    stack.metal.name,
    assumption === "" ? "–" : assumption,
  ]);
  return {
    kind: "table",
    caption: "Stacks that the prediction ran over; the likeliest is drawn above",
    columns,
    rows,
    cautions: [],
  };
}

function layerColour(layer: StackLayer): string {
  const { appearance } = layer.kind;
  const colour = appearance[layer.colour] ?? appearance.natural ?? appearance.mid ?? "#9a9a92";
  // users may add layers of their own: only a plain colour gets into a picture
  return /^(#[0-9a-fA-F]{3,8}|[a-z]{3,20})$/.test(colour) ? colour : "#9a9a92";
}

/** Every acceptance test asked for, with its result or the words "not measured". */
export function acceptanceSection(part: PartAnswer): Section {
  const rows = part.part.acceptance.tests.map((test) => {
    const onPatches = patchValues(part, test.kind);
    const value = [...(test.value === null ? [] : [test.value]), ...onPatches.map((p) => p.words)].join("; ");
    const verdicts = [test.passed, ...onPatches.map((p) => p.passed)].filter((p) => p !== null);
    const passed = verdicts.length === 0 ? "–" : verdicts.every(Boolean) ? "passed" : "failed";
    return [testWords[test.kind], test.method, test.limit, value === "" ? notMeasured : value, passed];
  });
  const columns = [
    { name: "test", align: "left", share: 24 },
    { name: "method", align: "left", share: 22 },
    { name: "limit", align: "left", share: 22 },
    { name: "value", align: "left", share: 22 },
    { name: "result", align: "left", share: 12 },
  ] as const;
  const blocks: Block[] =
    rows.length === 0
      ? [{ kind: "text", words: "No acceptance test was asked for." }]
      : [{ kind: "table", caption: "Acceptance tests asked for and their results", columns, rows, cautions: [] }];
  return { id: `${part.part.id}-acceptance`, heading: "Acceptance tests", level: 3, blocks };
}
