import { type EnquiryDoc, listEnquiries, putEnquiry } from "../api/enquiries.ts";

/** The first name of today that is not taken. */
export function freshId(taken: readonly string[], now: Date): string {
  const names = new Set(taken);
  const day = now.toISOString().slice(0, 10);
  for (let n = 1; ; n++) {
    const id = `enquiry-${day}-${n}`;
    if (!names.has(id)) return id;
  }
}

/** Keeps a new enquiry under a name of its own and returns the name. Throws Refused. */
export async function keepNew(describe: (id: string) => EnquiryDoc): Promise<string> {
  const { enquiries } = await listEnquiries();
  const id = freshId(
    enquiries.map((item) => item.id),
    new Date(),
  );
  await putEnquiry(id, 0, describe(id));
  return id;
}
