/** The enquiry as it stands in a file and in the API: units in the names. Everything but `parts` may be left out. */
export interface LayerDoc {
  readonly kind?: string;
  readonly group?: "coating" | "oxide" | "contaminant" | "metallic";
  readonly colour?: "white" | "mid" | "dark" | "clear" | "natural" | "unknown";
  readonly thickness_um?: number | string;
  readonly thicknessSpread_percent?: number | string;
  readonly mustStay?: boolean;
}

export interface FaceDoc {
  readonly kind?: "flat" | "convex" | "concave" | "edge" | "hole" | "weld-bead";
  readonly radius_mm?: number | string | null;
  readonly note?: string;
}

export interface TestDoc {
  readonly kind: string;
  readonly method?: string;
  readonly limit?: string;
  readonly value?: string | null;
  readonly passed?: boolean | null;
}

export interface AcceptanceDoc {
  readonly residueMax_percent?: number | string;
  readonly metalConditionMax?: number;
  readonly metalTemperatureMax_degC?: number | string | null;
  readonly tests?: readonly TestDoc[];
  readonly confidence_percent?: number | string;
}

export type KnowledgeDoc = "yes" | "no" | "unknown";

export interface PartDoc {
  readonly id?: string;
  readonly name?: string;
  readonly material?: string;
  readonly thickness_mm?: number | string;
  readonly area_m2?: number | string;
  readonly count?: number;
  readonly faces?: readonly FaceDoc[];
  readonly layers?: readonly LayerDoc[];
  readonly lead?: KnowledgeDoc;
  readonly chromate?: KnowledgeDoc;
  readonly acceptance?: AcceptanceDoc;
  readonly rateWanted_m2_per_h?: number | string | null;
}

export interface SiteDoc {
  readonly deliveries?: readonly ("scanner" | "hand" | "robot")[];
  readonly electricalPowerMax_VA?: number | string | null;
  readonly laserPowerMax_W?: number | string | null;
  readonly enclosed?: boolean | null;
  readonly note?: string;
}

export interface EnquiryDoc {
  readonly $schema?: string;
  readonly id?: string;
  readonly title?: string;
  readonly customer?: string;
  readonly invented?: boolean;
  readonly note?: string;
  readonly site?: SiteDoc;
  readonly parts: readonly PartDoc[];
}

/** Parts may come without an id; then their place in the list names them, as the contract does. */
export function partId(part: PartDoc, index: number): string {
  return part.id ?? `part-${index + 1}`;
}

export function partIndex(doc: EnquiryDoc, id: string | null): number {
  const found = doc.parts.findIndex((part, index) => partId(part, index) === id);
  return found < 0 ? 0 : found;
}

export function changePart(doc: EnquiryDoc, index: number, change: Partial<PartDoc>): EnquiryDoc {
  return { ...doc, parts: doc.parts.map((part, i) => (i === index ? { ...part, ...change } : part)) };
}

export function changeLayer(part: PartDoc, index: number, change: Partial<LayerDoc>): Partial<PartDoc> {
  return { layers: (part.layers ?? []).map((layer, i) => (i === index ? { ...layer, ...change } : layer)) };
}

/** A number of the file, or null where it says "unknown" or holds a text with a unit. */
export function plainNumber(value: number | string | null | undefined): number | null {
  return typeof value === "number" && Number.isFinite(value) ? value : null;
}

/** A new enquiry that is already complete enough for a first answer. */
export function newEnquiry(id: string, title: string): EnquiryDoc {
  return {
    id,
    title,
    customer: "",
    parts: [
      {
        id: "part-1",
        name: "Part 1",
        material: "steel-low-carbon",
        thickness_mm: 6,
        area_m2: 1,
        count: 1,
        layers: [{ kind: "unknown", group: "coating", colour: "unknown", thickness_um: "unknown" }],
      },
    ],
  };
}
