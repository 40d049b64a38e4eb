import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { main } from "#cli";
import { smallTrial } from "../cli/small-trial.ts";

async function run(...args: string[]): Promise<string> {
  const errors: string[] = [];
  const code = await main(
    ["node", "scourlight", ...args],
    () => {},
    (text) => errors.push(text),
  );
  expect(errors).toEqual([]);
  expect(code).toBe(0);
  return "";
}

/** One part of the example, its first six patches, its photographs: kept, packed, unpacked elsewhere, reported again. */
it("gives the report bit by bit again from the archive of its trial", async () => {
  const folder = mkdtempSync(join(tmpdir(), "archive-"));
  try {
    const files = smallTrial(folder);
    const enquiry = JSON.parse(readFileSync(files.enquiry, "utf8"));
    writeFileSync(files.enquiry, JSON.stringify({ ...enquiry, parts: enquiry.parts.slice(0, 1) }));
    const [here, there] = [join(folder, "here"), join(folder, "there")];
    const photos = new URL("../../examples/photos/hatch-covers.pulsed.coupon-1", import.meta.url).pathname;
    await run(
      "record",
      "--trial",
      files.trial,
      "--outcomes",
      files.outcomes,
      "--enquiry",
      files.enquiry,
      "--data",
      here,
    );
    await run(
      "grade",
      "--enquiry",
      files.enquiry,
      "--trial",
      files.trial,
      "--photos",
      photos,
      "--data",
      here,
      "--out",
      folder,
    );
    const archive = join(folder, "trial.crate.zip");
    await run("export", "--trial-id", "hatch-covers-pulsed", "--data", here, "--out", archive);
    await run("import", "--archive", archive, "--data", there);
    const report = (data: string, out: string) =>
      run(
        ...["report", "--enquiry", enquiry.id, "--data", data, "--draws", "8", "--date", "2026-11-29"],
        ...[
          "--document-id",
          "R-1",
          "--approver",
          "K. Example",
          "--papers",
          "--threads",
          "1",
          "--out",
          join(folder, out),
        ],
      );
    await report(here, "one");
    await report(there, "two");
    for (const name of ["report.pdf", "report.html", "hatch-covers.procedure.pdf", "hatch-covers.offer.pdf"]) {
      const [one, two] = ["one", "two"].map((out) => readFileSync(join(folder, out, `${enquiry.id}.${name}`)));
      expect(one!.length).toBeGreaterThan(5000);
      expect(Buffer.compare(one!, two!), name).toBe(0);
    }
    expect(readFileSync(join(folder, `one/${enquiry.id}.report.html`), "utf8")).toContain("data:image/jpeg;base64,");
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}, 600_000);
