import { z } from "zod";
import { parseJsonText, validate } from "#contract";
import { invalid } from "#units";
import type { Described } from "./crate-metadata.ts";
import { crateFamily, formatName, formatVersion, metadataPath } from "./crate-words.ts";

const what = "archive metadata";

const entitySchema = z.looseObject({ "@id": z.string().min(1).max(2000) });
type Entity = z.output<typeof entitySchema>;
const crateSchema = z.looseObject({ "@graph": z.array(entitySchema).min(2).max(100_000) });

const reference = z.looseObject({ "@id": z.string() });
/** JSON-LD writes one of a kind bare and several as a list. */
const references = z.union([reference.transform((one) => [one]), z.array(reference)]).default([]);

const fileSchema = z.looseObject({
  "@id": z.string(),
  name: z.string().default(""),
  encodingFormat: z.string().max(200),
  contentSize: z.union([z.string().regex(/^\d{1,12}$/), z.int().min(0)]),
  sha256: z.string().regex(/^[0-9a-f]{64}$/, { error: "must be a sha256 in 64 hexadecimal digits" }),
});

/** Refuses what is no archive of ours, and one that a later version wrote. */
function requireFormat(root: Entity, byId: ReadonlyMap<string, Entity>): void {
  const named = validate(references, root.additionalProperty, "additionalProperty").map((r) => byId.get(r["@id"]));
  const format = named.find((entity) => entity?.propertyID === formatName);
  if (format === undefined) invalid(what, "another content", "", `holds no ${formatName}`);
  const version = validate(z.int().min(1), format.value, "archive format");
  if (version > formatVersion)
    invalid("archive format", version, "", `was written by a newer version; this one knows ${formatVersion}`);
}

function rootOf(byId: ReadonlyMap<string, Entity>): Entity {
  const descriptor = byId.get(metadataPath) ?? invalid(what, "no descriptor", "", `must describe ${metadataPath}`);
  const standards = validate(references, descriptor.conformsTo, "conformsTo").map((r) => r["@id"]);
  if (!standards.some((id) => id.startsWith(crateFamily)))
    invalid("conformsTo", standards[0] ?? "missing", "", `must be an edition of ${crateFamily}`);
  const about = validate(reference, descriptor.about, "about")["@id"];
  return byId.get(about) ?? invalid("about", about, "", "is not in the graph");
}

/** The files that the metadata of an archive names, each with size and sum. Throws InvalidInput. */
export function readMetadata(text: string): Described[] {
  const graph = validate(crateSchema, parseJsonText(text, metadataPath), what)["@graph"];
  const byId = new Map(graph.map((entity) => [entity["@id"], entity]));
  const root = rootOf(byId);
  requireFormat(root, byId);
  return validate(references, root.hasPart, "hasPart").map(({ "@id": path }) => {
    const file = validate(fileSchema, byId.get(path) ?? invalid("hasPart", path, "", "is not in the graph"), path);
    return {
      path,
      name: file.name,
      mediaType: file.encodingFormat,
      size: Number(file.contentSize),
      sha256: file.sha256,
    };
  });
}
