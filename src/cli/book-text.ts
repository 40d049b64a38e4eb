import { createHash } from "node:crypto";
import type { Ray } from "#edges";

/** What a kept book holds: the rays of its list and those solved besides. */
export interface KeptRays {
  readonly rays: readonly Ray[];
  readonly besides: readonly Ray[];
}

const EDGES = ["half", "clean", "melt", "damage"] as const;

/** Raised when the form of the file changes. */
const FORM = 1;

/** A name of all that a book depends on: the same inputs have the same name, any other another. */
export function nameOfInputs(inputs: unknown): string {
  return sha256(JSON.stringify(inputs));
}

/** Edges as base64 of their eight bytes each, so that the same numbers come back to the last bit. */
export function bookText(inputs: string, kept: KeptRays): string {
  const body = JSON.stringify({ rays: kept.rays.map(rayToJson), besides: kept.besides.map(rayToJson) });
  const about = "Edges solved for a trial, kept so that the next look is quick. May be deleted.";
  return `${JSON.stringify({ about, form: FORM, inputs, sum: sha256(body), body })}\n`;
}

/** Null for a file of other inputs or of another form, and for one that is not whole. */
export function keptRays(text: string, inputs: string): KeptRays | null {
  try {
    const file = JSON.parse(text) as Record<string, unknown>;
    if (file.form !== FORM || file.inputs !== inputs || typeof file.body !== "string") return null;
    if (file.sum !== sha256(file.body)) return null;
    const { rays, besides } = JSON.parse(file.body) as { rays: RayJson[]; besides: RayJson[] };
    return { rays: rays.map(rayFromJson), besides: besides.map(rayFromJson) };
  } catch {
    return null;
  }
}

type RayJson = Omit<Ray, (typeof EDGES)[number]> & { readonly edges: string };

/** The same to the last bit. */
export function sameRay(a: Ray, b: Ray): boolean {
  return JSON.stringify(rayToJson(a)) === JSON.stringify(rayToJson(b));
}

function rayToJson(ray: Ray): RayJson {
  const { setting, areaRate, groups, slopes } = ray;
  const all = Float64Array.from(EDGES.flatMap((name) => [...ray[name]]));
  return { setting, areaRate, groups, slopes, edges: Buffer.from(all.buffer).toString("base64") };
}

function rayFromJson({ edges, ...rest }: RayJson): Ray {
  const bytes = Uint8Array.from(Buffer.from(edges, "base64"));
  const all = new Float64Array(bytes.buffer);
  const count = all.length / EDGES.length;
  const column = (k: number) => all.slice(k * count, (k + 1) * count);
  return { ...rest, half: column(0), clean: column(1), melt: column(2), damage: column(3) };
}

function sha256(text: string): string {
  return createHash("sha256").update(text).digest("hex");
}
