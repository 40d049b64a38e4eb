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
  readonly page: "enquiries" | "enquiry" | "library" | "archive" | "bench";
  readonly enquiryId: string | null;
  readonly step: StepId;
  readonly partId: string | null;
  /** what stands behind the page's name, in order: a trial at the machine, a shelf and an entry of the library */
  readonly path: readonly string[];
  readonly query: Readonly<Record<string, string>>;
}

/** `#/enquiries`, `#/enquiry/<id>/<step>?part=…&laser=…`, `#/library/<shelf>/<entry>`, `#/archive?…`, `#/bench/<trial>` */
export function parseHash(hash: string): Place {
  const [path = "", search = ""] = hash.replace(/^#\/?/, "").split("?", 2);
  const [page = "", ...rest] = path.split("/").map(decodePart);
  const [id, step] = rest;
  const query: Record<string, string> = {};
  for (const [key, value] of new URLSearchParams(search)) query[key] = value;
  const known = stepIds.find((s) => s === step) ?? "part";
  const none = { enquiryId: null, step: "part", partId: null, path: [], query } as const;
  if (page === "enquiry" && id)
    return { page, enquiryId: id, step: known, partId: query.part ?? null, path: [], query };
  if (page === "library" || page === "archive" || (page === "bench" && id))
    return { ...none, page, path: rest.filter((part) => part !== "") };
  return { ...none, page: "enquiries" };
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
  page?: "library" | "archive" | "bench";
  path?: readonly string[];
  query?: Record<string, string | null | undefined>;
}): string {
  const search = new URLSearchParams();
  for (const [key, value] of Object.entries(place.query ?? {})) if (value) search.set(key, value);
  const text = search.toString();
  const tail = text ? `?${text}` : "";
  if (place.page) return `#/${[place.page, ...(place.path ?? []).map(encodeURIComponent)].join("/")}${tail}`;
  if (!place.enquiryId) return "#/enquiries";
  return `#/enquiry/${encodeURIComponent(place.enquiryId)}/${place.step ?? "part"}${tail}`;
}
