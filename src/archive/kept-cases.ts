import { beliefFromWire, type EnquiryFile, resolveEnquiry } from "#contract";
import type { Library } from "#library";
import type { StoreReader } from "#store";
import type { Belief, ColourClass, LaserSetup, PartEnquiry, Property, WeightedStack } from "#terms";
import { InvalidInput } from "#units";
import type { LikeCase } from "#workflows";
import { remembered } from "./remembered.ts";

/** A trial that was kept, or a belief whose trial was not. */
export interface KeptCase extends LikeCase {
  readonly trialId: string;
  readonly enquiryId: string;
  /** null where the enquiry is not kept */
  readonly title: string | null;
  readonly partId: string;
  readonly setupId: string;
  readonly planned: number | null;
  /** when the trial was last saved, ISO 8601; null where it is not kept */
  readonly savedAt: string | null;
  /** null where the enquiry is not kept: then there is no acceptance to judge by */
  readonly part: PartEnquiry | null;
  readonly belief: Belief | null;
}

export interface KeptCases {
  /** trials last saved first, then beliefs whose trials are not kept */
  readonly cases: readonly KeptCase[];
  /** trials without a stack to compare */
  readonly notCompared: number;
}

/** Every trial and belief of a store with the stack and the set-up that it was burned on; each version is worked out once. */
export function caseReader(library: Library): (reader: StoreReader) => Promise<KeptCases> {
  const enquiriesOf = remembered("enquiry", ({ record }) => ({
    title: record.title,
    parts: new Map(partsOf(record, library).map((part) => [part.id, part])),
  }));
  const beliefsOf = remembered("belief", ({ record }) => beliefFromWire(record));
  const setupOf = (id: string): LaserSetup | null => library.setups.find((s) => s.id === id) ?? null;
  return async (reader) => {
    const beliefs = new Map([...(await beliefsOf(reader)).values()].reverse().map((b) => [b.trialId, b]));
    const enquiries = await enquiriesOf(reader);
    const cases: KeptCase[] = [];
    let notCompared = 0;
    const add = (one: Omit<KeptCase, "mixture" | "setup" | "part" | "belief" | "title">) => {
      const enquiry = enquiries.get(one.enquiryId) ?? null;
      const part = enquiry?.parts.get(one.partId) ?? null;
      const belief = beliefs.get(one.trialId) ?? null;
      beliefs.delete(one.trialId);
      const mixture = part !== null && part.mixture.length > 0 ? part.mixture : stackOf(belief, library);
      if (mixture.length === 0) notCompared += 1;
      else cases.push({ ...one, title: enquiry?.title ?? null, mixture, setup: setupOf(one.setupId), part, belief });
    };
    for (const t of await reader.trialLines())
      add({
        trialId: t.id,
        enquiryId: t.enquiry,
        partId: t.part,
        setupId: t.laser,
        planned: t.patches,
        savedAt: t.savedAt,
      });
    for (const b of [...beliefs.values()])
      add({
        trialId: b.trialId,
        enquiryId: b.enquiryId,
        partId: b.partId,
        setupId: b.setupId,
        planned: null,
        savedAt: null,
      });
    return { cases, notCompared };
  };
}

/** Parts of a kept enquiry; none where the library has lost what they are made of. */
function partsOf(file: EnquiryFile, library: Library): readonly PartEnquiry[] {
  try {
    return resolveEnquiry(file, library).parts;
  } catch (error) {
    if (error instanceof InvalidInput) return [];
    throw error;
  }
}

/** The stack that a belief names, where its enquiry is gone. */
function stackOf(belief: Belief | null, library: Library): WeightedStack[] {
  const metal = library.metals.find((m) => m.id === belief?.metalId);
  if (belief === null || metal === undefined) return [];
  const layers = belief.layers.flatMap((l) => {
    const kind = library.layerKinds.find((k) => k.id === l.kindId);
    return kind === undefined
      ? []
      : [{ kind, colour: l.colour as ColourClass, thickness: fixed(l.thickness), mustStay: false }];
  });
  if (layers.length < belief.layers.length) return [];
  return [{ stack: { layers, metal, metalThickness: UNSAID }, weight: 1, assumption: "" }];
}

/** m; a belief does not say how thick the metal was, and likeness does not ask. */
const UNSAID = 1e-3;

function fixed(thickness: number): Property {
  return {
    value: thickness,
    low: thickness,
    high: thickness,
    distribution: "fixed",
    unit: "m",
    validRange: "the part of that trial",
    source: "user",
    fromMemory: false,
  };
}
