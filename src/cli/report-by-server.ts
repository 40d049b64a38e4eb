import { join } from "node:path";
import type { AnswerDetailsWire, AnswerLineWire, AnswerListWire, ShopVersionWire } from "#contract";
import { MODEL_VERSION } from "#workflows";
import { invalid } from "#units";
import { writeWhole } from "./files.ts";
import type { ReportFlags } from "./report-flags.ts";
import { askIfThere, askServer, at, type Door, fetchBytes, RefusedByServer } from "./server-api.ts";
import { day } from "./today.ts";

/** The whole answer of a kept enquiry: the last one kept where it still stands, else a new one; then its papers. */
export async function reportByServer(door: Door, flags: ReportFlags): Promise<string> {
  const { enquiry } = flags;
  const details =
    (await standingAnswer(door, flags)) ??
    (await detailsOf(
      door,
      await askServer<AnswerLineWire>(door, "POST", `/enquiries/${at(enquiry)}/answers`, {
        json: { seed: flags.seed, draws: flags.draws },
      }),
    ));
  const dateText = day(flags.date);
  const head = query({
    documentId: flags.documentId ?? `${enquiry}-${dateText}`,
    revision: flags.revision,
    approver: flags.approver,
    date: dateText,
  });
  const files: string[] = [];
  const fetchTo = async (name: string, path: string): Promise<void> => {
    await writeWhole(join(flags.out, name), (await fetchBytes(door, "GET", path)).bytes);
    files.push(join(flags.out, name));
  };
  for (const format of ["html", "pdf"])
    await fetchTo(`${enquiry}.report.${format}`, `/answers/${at(details.id)}/report.${format}?${head}`);
  const words: string[] = [];
  if (flags.papers)
    for (const { part } of details.details.parts)
      for (const kind of ["procedure", "commissioning", "offer"])
        for (const format of ["pdf", "html"]) {
          const asked = query({
            answer: details.id,
            format,
            language: flags.language,
            revision: flags.revision,
            approver: flags.approver,
            date: dateText,
            validUntil: flags.validUntil === undefined ? undefined : day(flags.validUntil),
          });
          const path = `/enquiries/${at(enquiry)}/papers/${at(part)}/${kind}?${asked}`;
          await fetchTo(`${enquiry}.${part}.${kind}.${format}`, path).catch((error: unknown) => {
            // Where nothing is recommended there is nothing to work from, and the server says why.
            if (!(error instanceof RefusedByServer && error.status === 404)) throw error;
            words.push(error.message);
          });
        }
  return [...new Set(words), ...files.map((f) => `wrote ${f}`)].join("\n");
}

function query(fields: Readonly<Record<string, string | undefined>>): URLSearchParams {
  const given = Object.entries(fields).filter((field): field is [string, string] => field[1] !== undefined);
  return new URLSearchParams(given);
}

const detailsOf = (door: Door, { id }: Pick<AnswerLineWire, "id">): Promise<AnswerDetailsWire> =>
  askServer(door, "GET", `/answers/${at(id)}/details`);

/** The newest answer where nothing that it stands on was changed since and it was drawn as asked; else null. */
async function standingAnswer(door: Door, { enquiry, seed, draws }: ReportFlags): Promise<AnswerDetailsWire | null> {
  const path = `/enquiries/${at(enquiry)}`;
  if ((await askIfThere(door, path)) === null) invalid("enquiry", enquiry, "", "is not kept in this data folder");
  const { answers, changedAt } = await askServer<AnswerListWire>(door, "GET", `${path}/answers`);
  const [newest] = answers;
  if (newest === undefined || newest.modelVersion !== MODEL_VERSION) return null;
  const details = await askIfThere<AnswerDetailsWire>(door, `/answers/${at(newest.id)}/details`);
  const { version } = await askServer<ShopVersionWire>(door, "GET", `${path}/shop`);
  const stands =
    details !== null &&
    details.changedAt === changedAt &&
    details.shopVersion === version &&
    details.seed === seed &&
    details.draws === draws;
  return stands ? details : null;
}
