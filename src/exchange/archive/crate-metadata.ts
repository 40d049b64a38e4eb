import { crateContext, crateStandard, formatName, formatVersion, metadataPath } from "./crate-words.ts";

/** A file of the archive as the metadata describes it. */
export interface Described {
  readonly path: string;
  readonly name: string;
  readonly mediaType: string;
  readonly size: number;
  readonly sha256: string;
}

export interface About {
  readonly name: string;
  readonly description: string;
  /** ISO 8601 */
  readonly datePublished: string;
}

const to = (id: string) => ({ "@id": id });

/** The metadata of an archive: descriptor, root, a File with its sha256 for each file, and the version of our format. */
export function crateMetadata(about: About, files: readonly Described[]): Record<string, unknown> {
  return {
    "@context": crateContext,
    "@graph": [
      { "@id": metadataPath, "@type": "CreativeWork", conformsTo: to(crateStandard), about: to("./") },
      {
        "@id": "./",
        "@type": "Dataset",
        ...about,
        license: "Not stated. Ask whoever handed over this archive before it is used or passed on.",
        hasPart: files.map((file) => to(file.path)),
        additionalProperty: to("#format"),
      },
      ...files.map((file) => ({
        "@id": file.path,
        "@type": "File",
        name: file.name,
        encodingFormat: file.mediaType,
        contentSize: String(file.size),
        sha256: file.sha256,
      })),
      { "@id": "#format", "@type": "PropertyValue", name: "format", propertyID: formatName, value: formatVersion },
    ],
  };
}
