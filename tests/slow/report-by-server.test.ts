import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { parseEnquiryFile } from "#contract";
import { onBoth, openTwoFolders, run, small, type TwoFolders, writtenOnBoth } from "../cli/two-folders.ts";

let both: TwoFolders;
beforeAll(async () => {
  both = await openTwoFolders();
});
afterAll(() => both.close());

it("writes the same report and papers, and does not work out twice what still stands", async () => {
  const args = [
    "report",
    "--enquiry",
    "small",
    "--data",
    "DATA",
    "--out",
    "OUT",
    "--draws",
    "8",
    "--date",
    "2026-11-25",
    "--papers",
    "--revision",
    "7",
    "--approver",
    "A. Person",
    "--document-id",
    "paper 9",
  ];
  await onBoth(both, ...args);
  for (const name of ["small.report.html", "small.cover.offer.html"]) {
    const [one, other] = writtenOnBoth(both, name);
    expect(one.toString(), name).toBe(other.toString());
    expect(one.toString()).toContain("revision 7");
  }
  expect(writtenOnBoth(both, "small.report.pdf")[0].toString("latin1", 0, 5)).toBe("%PDF-");
  expect(writtenOnBoth(both, "small.report.html")[0].toString()).toContain("paper 9");
  const answers = () => both.store.read((r) => r.answers("small"));
  expect(await answers()).toHaveLength(1);
  await run("report", "--enquiry", "small", "--data", both.served, "--out", join(both.root, "again"), "--draws", "8");
  expect(await answers()).toHaveLength(1);
  await both.store.write(
    async (tx) => void (await tx.put("enquiry", parseEnquiryFile({ ...small, title: "Other" }))),
    () => "2026-11-26T10:00:00.000Z",
  );
  await run("report", "--enquiry", "small", "--data", both.served, "--out", join(both.root, "again"), "--draws", "8");
  expect(await answers()).toHaveLength(2);
}, 60_000);
