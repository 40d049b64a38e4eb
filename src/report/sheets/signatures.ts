import { blank, fact, type SheetSection, text } from "./model.ts";
import type { Speech } from "./speech.ts";

/** Room to sign for each role; a name that is known is printed. */
export function signatureSection(
  roles: readonly { readonly role: string; readonly name: string | null }[],
  speech: Speech,
): SheetSection {
  const said = speech.words.procedure;
  const rows = roles.map(({ role, name }) => fact(role, name === null ? blank() : text(name)));
  const words = [said.signName, said.signDate, said.signature].join(", ");
  return { id: "signatures", heading: said.signHeading, blocks: [{ kind: "signs", rows, words }] };
}
