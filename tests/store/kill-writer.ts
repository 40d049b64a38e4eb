// Writes without end and says on its output what has been acknowledged, until it is killed.
import { writeSync } from "node:fs";
import { openStore } from "#store";
import { enquiry, graded, trialRecord } from "./records.ts";

const store = openStore(process.argv[2]!);
const round = process.argv[3]!;
await store.write((t) => t.put("trial", trialRecord));
for (let i = 0; ; i += 1) {
  const name = `${round}-${i}`;
  await store.write(async (t) => {
    await t.put("enquiry", enquiry(name));
    await t.addOutcomes("trial-1", [graded(1, 0.5, name), graded(2, 0.5, name)]);
  });
  writeSync(1, `row ${name}\n`);
  if (i % 5 === 4) writeSync(1, `photo ${await store.savePhoto(Buffer.from(name), "image/png")}\n`);
}
