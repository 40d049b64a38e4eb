import { copyFileSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const examples = new URL("../../examples/", import.meta.url).pathname;

/** Files of the example with its first six burned patches: enough to be joined with the physics, and quick. */
export function smallTrial(folder: string): { enquiry: string; trial: string; outcomes: string } {
  const files = {
    enquiry: join(folder, "enquiry.json"),
    trial: join(folder, "small.trial.json"),
    outcomes: join(folder, "small.outcomes.csv"),
  };
  const trial = JSON.parse(readFileSync(join(examples, "hatch-covers.pulsed.trial.json"), "utf8"));
  const burned = trial.patches.filter((p: { setting: unknown }) => p.setting !== null).slice(0, 6);
  writeFileSync(
    files.trial,
    JSON.stringify({ ...trial, patches: burned.map((p: object) => ({ ...p, replicateOf: null })) }),
  );
  const [header, ...rows] = readFileSync(join(examples, "hatch-covers.pulsed.outcomes.csv"), "utf8")
    .trim()
    .split(/\r?\n/);
  const at = header!.split(",").indexOf("patch");
  const numbers = new Set(burned.map((p: { patch: number }) => String(p.patch)));
  const kept = rows.filter((row) => numbers.has(row.split(",")[at]!));
  writeFileSync(files.outcomes, `${[header, ...kept].join("\r\n")}\r\n`);
  copyFileSync(join(examples, "enquiry.json"), files.enquiry);
  return files;
}
