import { type FumeEntry, type FumeLimit, fumeEntries } from "#library";
import type { Knowledge, LayerKind, Metal } from "#terms";

export type Hazardous = "lead" | "chromate" | "cadmium" | "asbestos";

/** What is known of substances that change the whole job; "unknown" when not given. */
export type HazardKnowledge = { readonly [substance in Hazardous]?: Knowledge };

export interface FumeFlag {
  readonly id: string;
  readonly name: string;
  /** "stop": specialist work; "test first": may be present; "capture": comes off, catch it */
  readonly action: "stop" | "test first" | "capture";
  readonly substances: readonly string[];
  /** limits to show beside the substances, one line each; never a predicted concentration */
  readonly limits: readonly string[];
  readonly note: string;
  readonly sources: readonly string[];
}

const ALL: readonly Hazardous[] = ["lead", "chromate", "cadmium", "asbestos"];

/** What the metal itself gives off when the beam gets that far, by family. */
const METAL_FUME: Readonly<Record<string, readonly string[]>> = {
  aluminium: ["light-metal-dust"],
  magnesium: ["light-metal-dust"],
  titanium: ["light-metal-dust"],
  steel: ["iron-oxide"],
  "cast-iron": ["iron-oxide"],
  stainless: ["chromium-metal", "iron-oxide"],
  zinc: ["zinc"],
};

function limitLine(limit: FumeLimit): string {
  const note = limit.note === undefined ? "" : ` (${limit.note})`;
  return `${limit.substance}: ${limit.value} ${limit.unit}, ${limit.kind}, ${limit.authority}${note}`;
}

function flag(entry: FumeEntry, action: FumeFlag["action"]): FumeFlag {
  const sources = [...new Set(entry.limits.map((limit) => limit.source))];
  return {
    id: entry.id,
    name: entry.name,
    action,
    substances: entry.substances,
    limits: entry.limits.map(limitLine),
    note: entry.note,
    sources,
  };
}

/** A hazardous substance that the library has no entry for is still flagged, in plain words. */
function bareEntry(substance: Hazardous): FumeEntry {
  return {
    id: substance,
    name: substance,
    substances: [substance],
    limits: [],
    stop: true,
    note: "Stop: specialist work under the local rules.",
    source: "own",
    fromMemory: false,
  };
}

/** A layer that the fume list knows nothing of is not harmless: nobody has looked. */
function unknownFlag(kind: LayerKind, ids: readonly string[]): FumeFlag {
  return {
    id: `unknown-${kind.id}`,
    name: kind.name,
    action: "test first",
    substances: ["unknown"],
    limits: [],
    note:
      "Unknown: treat as hazardous, test first. The fume list says nothing of this layer" +
      (ids.length === 0 ? "." : ` (no entry: ${ids.join(", ")}).`),
    sources: [],
  };
}

/** What is to be done about a substance: null when it is known to be absent, or unknown and not expected in these layers. */
export function hazardAction(
  substance: Hazardous,
  known: HazardKnowledge,
  layers: readonly LayerKind[],
): "stop" | "test first" | null {
  const knowledge = known[substance] ?? "unknown";
  if (knowledge === "yes") return "stop";
  if (knowledge === "no") return null;
  return layers.some((kind) => kind.mayHold.includes(substance)) ? "test first" : null;
}

/**
 * What may come off a stack, strongest action first: substances said to be present stop the job; those that these
 * layers may hold ask for a test, and so does a layer that the fume list knows nothing of; the rest is to be caught. Flags substances, never a concentration: no emission
 * factors are published.
 * @param layers kinds of the stack (all kinds of a mixture)
 * @param metal null where it is not known
 * @param known lead, chromate, cadmium, asbestos: yes, no or unknown
 * @param entries the fume list, the built-in library's when not given
 */
export function fumeFlags(
  layers: readonly LayerKind[],
  metal: Metal | null,
  known: HazardKnowledge,
  entries: readonly FumeEntry[] = fumeEntries,
): readonly FumeFlag[] {
  const byId = new Map(entries.map((entry) => [entry.id, entry]));
  const flags = new Map<string, FumeFlag>();
  for (const substance of ALL) {
    const action = hazardAction(substance, known, layers);
    if (action !== null) flags.set(substance, flag(byId.get(substance) ?? bareEntry(substance), action));
  }
  const ids = [...layers.flatMap((kind) => kind.fume), ...(METAL_FUME[metal?.family ?? ""] ?? [])];
  for (const id of ids) {
    const entry = byId.get(id);
    if (entry !== undefined && !flags.has(id)) flags.set(id, flag(entry, entry.stop ? "stop" : "capture"));
  }
  for (const kind of layers) {
    const unknown = kind.fume.filter((id) => !byId.has(id));
    if (kind.fume.length === 0 || unknown.length > 0) flags.set(`unknown-${kind.id}`, unknownFlag(kind, unknown));
  }
  const order = ["stop", "test first", "capture"];
  return [...flags.values()].sort((a, b) => order.indexOf(a.action) - order.indexOf(b.action));
}
