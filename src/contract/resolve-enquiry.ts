import type { Enquiry } from "#terms";
import { InvalidInput } from "#units";
import { type EnquiryFile, enquirySchema } from "./enquiry-schema.ts";
import { type LibraryShelves, resolvePart } from "./resolve-part.ts";
import { InvalidInputs, validate } from "./validate.ts";
import { intoOrNull } from "./wire-numbers.ts";

/** Checks an enquiry file by itself and fills in its defaults; still in the units of the file. */
export function parseEnquiryFile(json: unknown): EnquiryFile {
  return validate(enquirySchema, json, "enquiry");
}

/** An enquiry file against the library: known ids, mixtures for what is unknown, SI. Throws InvalidInputs. */
export function resolveEnquiry(file: EnquiryFile, library: LibraryShelves): Enquiry {
  const problems: InvalidInput[] = [];
  const parts = file.parts.flatMap((part, i) => {
    try {
      return [resolvePart(part, i, library)];
    } catch (error) {
      if (!(error instanceof InvalidInput)) throw error;
      problems.push(error);
      return [];
    }
  });
  const seen = new Set<string>();
  parts.forEach((part, i) => {
    if (seen.has(part.id))
      problems.push(new InvalidInput(`parts[${i}].id`, part.id, "", "must differ from the other parts"));
    seen.add(part.id);
  });
  if (problems.length > 0) throw new InvalidInputs(problems);
  return {
    id: file.id,
    title: file.title,
    customer: file.customer,
    invented: file.invented,
    site: {
      deliveries: file.site.deliveries,
      electricalPowerMax: file.site.electricalPowerMax_VA,
      laserPowerMax: intoOrNull(file.site.laserPowerMax_W, "W"),
      enclosed: file.site.enclosed,
      note: file.site.note,
    },
    parts,
    note: file.note,
  };
}

/** From checked-by-nobody JSON to an enquiry in SI. Throws InvalidInputs with one line per problem. */
export function parseEnquiry(json: unknown, library: LibraryShelves): Enquiry {
  return resolveEnquiry(parseEnquiryFile(json), library);
}
