import type { KnownNumber } from "#library";
import type { Belief, PartEnquiry } from "#terms";

/** One number carried from one belief. */
export interface CarriedPiece {
  readonly name: string;
  readonly belief: Belief;
  readonly share: number;
}

const shareWords = (share: number): string =>
  share === 1 / 2 ? "counted half" : share === 1 / 4 ? "counted a quarter" : `counted 1/${Math.round(1 / share)}`;

/** A number worth naming: its spread fell by a twentieth, or its mean moved by a fifth of the library's spread. */
const standsOut = (k: KnownNumber | undefined): boolean =>
  k !== undefined && (k.spread < 0.95 || Math.abs(k.mean) > 0.2);

const SHIFT = "how far the physics was off";

/** "white polyurethane top coat"; a natural colour goes without saying. */
function thingOf(name: string, part: PartEnquiry): string {
  const [what, id, colour] = name.split(":");
  for (const { stack } of part.mixture) {
    if (what === "metal" && stack.metal.id === id) return stack.metal.name;
    const layer = what === "layer" ? stack.layers.find((l) => l.kind.id === id && l.colour === colour) : undefined;
    if (layer) return `${colour === "natural" ? "" : `${colour} `}${layer.kind.name.toLowerCase()}`;
  }
  return what === "plume" ? "plume" : what === "conversion" ? "rust turning to magnetite" : SHIFT;
}

const propertyOf = (name: string): string => (name.split(":").pop() as string).replaceAll("-", " ");

const listed = (items: readonly string[]): string =>
  items.length < 2 ? items.join() : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;

/** What was carried, from which trial and how it was widened; one line per thing, trial and share. */
export function carriedWords(
  pieces: readonly CarriedPiece[],
  known: ReadonlyMap<string, KnownNumber>,
  part: PartEnquiry,
): string[] {
  const lines = new Map<string, { thing: string; piece: CarriedPiece; names: string[] }>();
  for (const piece of pieces) {
    const thing = thingOf(piece.name, part);
    const key = [thing, piece.belief.trialId, piece.share].join("|");
    const line = lines.get(key) ?? { thing, piece, names: [] };
    if (standsOut(known.get(piece.name))) line.names.push(propertyOf(piece.name));
    lines.set(key, line);
  }
  return [...lines.values()].flatMap(({ thing, piece: { belief, share }, names }) => {
    if (names.length === 0) return [];
    const what =
      thing === SHIFT ? `${listed(names)} (${SHIFT})` : names[0] === thing ? thing : `${listed(names)} of ${thing}`;
    return [`${what}: from trial ${belief.trialId} (${belief.patches} patches), ${shareWords(share)}`];
  });
}
