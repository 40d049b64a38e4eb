export const stepIds = [
  "part",
  "lasers",
  "setting",
  "trial",
  "results",
  "window",
  "comparison",
  "economy",
  "report",
] as const;
export type StepId = (typeof stepIds)[number];

/** Where a person is. Everything that can be sent as a link is in here. */
export interface Place {
  readonly page: "enquiries" | "enquiry" | "library";
  readonly enquiryId: string | null;
  readonly step: StepId;
  readonly partId: string | null;
  readonly query: Readonly<Record<string, string>>;
}

/** `#/enquiries`, `#/enquiry/<id>/<step>?part=…&laser=…` */
export function parseHash(hash: string): Place {
  const [path = "", search = ""] = hash.replace(/^#\/?/, "").split("?", 2);
  const [page, id, step] = path.split("/").map(decodePart);
  const query: Record<string, string> = {};
  for (const [key, value] of new URLSearchParams(search)) query[key] = value;
  const known = stepIds.find((s) => s === step) ?? "part";
  if (page === "enquiry" && id) return { page, enquiryId: id, step: known, partId: query.part ?? null, query };
  return { page: page === "library" ? "library" : "enquiries", enquiryId: null, step: "part", partId: null, query };
}

function decodePart(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

export function linkTo(place: {
  enquiryId?: string;
  step?: StepId;
  page?: "library";
  query?: Record<string, string | null | undefined>;
}): string {
  if (place.page) return `#/${place.page}`;
  if (!place.enquiryId) return "#/enquiries";
  const search = new URLSearchParams();
  for (const [key, value] of Object.entries(place.query ?? {})) if (value) search.set(key, value);
  const text = search.toString();
  return `#/enquiry/${encodeURIComponent(place.enquiryId)}/${place.step ?? "part"}${text ? `?${text}` : ""}`;
}
