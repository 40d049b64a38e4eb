import type { Face, PartEnquiry, Stack, StackLayer } from "#terms";
import { requireInteger } from "#units";
import { fact, type SheetBlock, type SheetSection } from "./model.ts";
import type { Speech } from "./speech.ts";
import { fill } from "./words.ts";

/** "polyurethane top coat, mid, 42 µm to 84 µm" */
function layerWords({ kind, colour, thickness, mustStay }: StackLayer, speech: Speech): string {
  const name = `thickness of ${kind.name}`;
  const thick =
    thickness.low === thickness.high
      ? speech.quantity(name, thickness.value, "um")
      : speech.range(name, thickness.low, thickness.high, "um");
  return `${kind.name}, ${thick}${colour === "natural" ? "" : `, ${colour}`}${mustStay ? ` (${speech.words.procedure.stays})` : ""}`;
}

export function stackWords(stack: Stack, speech: Speech): string {
  const said = speech.words.procedure;
  return stack.layers.map((layer) => layerWords(layer, speech)).join("; ") || said.bare;
}

function faceWords(face: Face, speech: Speech): string {
  const said = speech.words.procedure;
  const radius = face.radius === null ? "" : `, ${said.radius} ${speech.quantity("radius", face.radius, "mm")}`;
  return `${said.faceKinds[face.kind]}${radius}${face.note === "" ? "" : ` (${face.note})`}`;
}

/** What is to be cleaned: material, layers from the top, metal, faces. Less likely stacks may be left out for room. */
export function partSection(part: PartEnquiry, speech: Speech): SheetSection {
  const said = speech.words.procedure;
  const stacks = part.mixture.toSorted((a, b) => b.weight - a.weight).map(({ stack }) => stack);
  const [likeliest, ...others] = stacks;
  const blocks: SheetBlock[] = [
    {
      kind: "facts",
      rows: [
        fact(speech.words.common.part, part.name),
        fact(said.material, part.material),
        fact(said.layers, likeliest === undefined ? said.unknown : stackWords(likeliest, speech)),
        ...(likeliest === undefined
          ? []
          : [
              fact(
                said.metal,
                `${likeliest.metal.name}, ${speech.quantity("metal thickness", likeliest.metalThickness, "mm")}`,
              ),
            ]),
      ],
    },
  ];
  const job = fill(said.jobValue, {
    count: requireInteger("count", part.count, 1),
    area: speech.quantity("area", part.area, "m2"),
  });
  blocks.push({ kind: "facts", rows: [fact(said.job, job)], spare: { order: 5, name: said.job } });
  if (others.length > 0)
    blocks.push({
      kind: "facts",
      rows: [fact(said.otherStacks, others.map((stack) => stackWords(stack, speech)).join(" | "))],
      spare: { order: 3, name: said.otherStacksLost },
    });
  if (part.faces.length > 0)
    blocks.push({
      kind: "facts",
      rows: [fact(said.faces, part.faces.map((face) => faceWords(face, speech)).join("; "))],
      spare: { order: 2, name: said.faces },
    });
  return { id: "part", heading: said.partHeading, blocks };
}
