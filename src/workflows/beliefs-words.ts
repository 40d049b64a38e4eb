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

/** Trials named in one line; of more only the number. */
const NAMED_MOST = 3;

function fromWords(beliefs: ReadonlySet<Belief>): string {
  const trials = [...beliefs].sort((a, b) => b.patches - a.patches).map((b) => `${b.trialId} (${b.patches} patches)`);
  const named = trials.slice(0, NAMED_MOST);
  const rest = trials.length - named.length;
  return `from ${trials.length === 1 ? "trial" : "trials"} ${rest > 0 ? `${named.join(", ")} and ${rest} more` : listed(named)}`;
}

/** What was carried, from which trials and how it was widened; one line per thing and share. */
export function carriedWords(
  pieces: readonly CarriedPiece[],
  known: ReadonlyMap<string, KnownNumber>,
  part: PartEnquiry,
): string[] {
  const lines = new Map<string, { thing: string; share: number; names: Set<string>; beliefs: Set<Belief> }>();
  for (const { name, belief, share } of pieces) {
    if (!standsOut(known.get(name))) continue;
    const thing = thingOf(name, part);
    const key = `${thing}|${share}`;
    const line = lines.get(key) ?? { thing, share, names: new Set(), beliefs: new Set() };
    line.names.add(propertyOf(name));
    line.beliefs.add(belief);
    lines.set(key, line);
  }
  return [...lines.values()].map(({ thing, share, names, beliefs }) => {
    const list = listed([...names]);
    const what = thing === SHIFT ? `${list} (${SHIFT})` : list === thing ? thing : `${list} of ${thing}`;
    return `${what}: ${fromWords(beliefs)}, ${shareWords(share)}`;
  });
}
