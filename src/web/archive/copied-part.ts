import type { EnquiryDoc, PartDoc } from "../enquiry/doc.ts";
import { partId } from "../enquiry/doc.ts";
import { words } from "../words/index.ts";

const TITLE_MAX = 300;
const say = words.archive.copy;

/** What was found out of one plate says nothing of the next: measured tests go, and a clean bill for lead or chromate with them. */
function anew(part: PartDoc): PartDoc {
  const asked = (known: PartDoc["lead"]) => (known === "yes" ? "yes" : "unknown");
  return {
    ...part,
    lead: asked(part.lead),
    chromate: asked(part.chromate),
    ...(part.acceptance?.tests === undefined
      ? {}
      : {
          acceptance: {
            ...part.acceptance,
            tests: part.acceptance.tests.map((test) => ({ ...test, value: null, passed: null })),
          },
        }),
  };
}

/** A new enquiry with one part of another, and the words of where it came from; null where that part is gone. */
export function copiedPart(
  from: EnquiryDoc,
  about: { readonly id: string; readonly enquiry: string; readonly part: string; readonly trial: string },
): EnquiryDoc | null {
  const part = from.parts.find((p, i) => partId(p, i) === about.part);
  if (part === undefined) return null;
  const name = part.name || about.part;
  const title = from.title || words.list.untitled;
  return {
    id: about.id,
    title: say.name(name, title).slice(0, TITLE_MAX),
    customer: "",
    // What is made from an invented case is no real one either.
    ...(from.invented ? { invented: true } : {}),
    note: say.note(name, about.enquiry, about.trial),
    parts: [{ ...anew(part), id: about.part }],
  };
}
