import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import {
  beliefToWire,
  type EnquiryFile,
  outcomeToWire,
  parseEnquiryFile,
  type TrialWire,
  validatePublished,
} from "#contract";
import type { LibraryFile } from "#library";
import { openStore, type Store } from "#store";
import { belief } from "../store/records.ts";
import { enquiryText, outcomes, setup, wire } from "./examples.ts";

export const scratch = (): string => mkdtempSync(join(tmpdir(), "scourlight-exchange-"));

/** A store whose clock goes on by a second at each row. */
export function ticking(folder: string, from = Date.UTC(2026, 2, 1)): Store {
  let tick = 0;
  return openStore(join(folder, "scourlight.db"), { now: () => new Date(from + 1000 * tick++).toISOString() });
}

export const enquiry: EnquiryFile = parseEnquiryFile(JSON.parse(enquiryText));
const ownLibrary: LibraryFile = {
  source: "user",
  fromMemory: true,
  note: "an invented set-up",
  setups: [{ ...setup, id: "own-laser", name: "Own laser" }],
};
/** The example's trial, on a set-up of a library file of its own. */
export const trialRecord: TrialWire = { ...wire, laser: "own-laser" };
export const photoA = new Uint8Array([0xff, 0xd8, 1, 2, 3]);
export const photoC = new Uint8Array([0xff, 0xd8, 5, 5]);
export const photoB = new Uint8Array([0x89, 0x50, 9, 8, 7, 6]);

const answer = (part: string | null, seed: number) => ({
  enquiry: enquiry.id,
  enquiryVersion: 1,
  shape: "triage" as const,
  modelVersion: "m1",
  inputs: { seed, drawCount: 64, ...(part === null ? {} : { part }) },
  result: { verdict: "likely" as const, reasons: ["thin rust"] },
});

/** A coupon of which one photograph was taken and nothing could be read. */
const gradingOf = (ofTrial: string, sha256: string) =>
  validatePublished(
    "grading",
    {
      id: `${ofTrial}.coupon-1`,
      enquiry: enquiry.id,
      trial: ofTrial,
      coupon: 1,
      printScale: 1,
      greysMeasured: false,
      residueMax_percent: 5,
      metalConditionMax: 2,
      photos: [
        {
          name: "dark.jpg",
          sha256,
          read: false,
          gates: [],
          scale_px_per_mm: null,
          tilt_deg: null,
          edgeWidth_mm: null,
          markers: 0,
          patches: 0,
        },
      ],
      difference: null,
      notes: [],
      patches: [],
      cautions: [],
    },
    "grading",
  );

const graded = outcomes.slice(0, 8).map((o) => ({ ...outcomeToWire(o), trial: wire.id }));

/** One trial with everything that may belong to it, beside things that belong to others. */
export async function fill(store: Store): Promise<void> {
  const sumA = await store.savePhoto(photoA, "image/jpeg");
  const sumB = await store.savePhoto(photoB, "image/png");
  const sumC = await store.savePhoto(photoC, "image/jpeg");
  await store.savePhoto(new Uint8Array([1]), "image/png");
  const sample = {
    id: "s1",
    enquiry: enquiry.id,
    part: wire.part,
    label: "S-001",
    received: "2026-02-01",
    returned: null,
    conditionPhoto: sumA,
    thicknessMap: [],
    untouchedWitnessKept: true,
    note: "",
  };
  const learnt = { ...beliefToWire(belief), trial: wire.id, enquiry: enquiry.id, part: wire.part };
  await store.write(async (t) => {
    await t.put("library", { id: "own", file: ownLibrary });
    await t.put("library", { id: "unused", file: { source: "user", fromMemory: true, note: "empty" } });
    await t.put("enquiry", enquiry);
    await t.put("trial", trialRecord);
    await t.put("trial", { ...trialRecord, id: "another-trial", part: "hatch-covers" });
    await t.put("sample", sample);
    await t.put("sample", { ...sample, id: "s2", part: "hatch-covers", conditionPhoto: null });
    await t.addOutcomes(wire.id, graded);
    await t.addOutcomes("another-trial", [{ ...graded[0]!, trial: "another-trial" }]);
    await t.put("enquiry", { ...enquiry, title: "Title made clearer" });
    await t.put("grading", gradingOf(wire.id, sumC));
    await t.put("grading", gradingOf("another-trial", sumC));
    await t.put("belief", learnt);
    await t.put("belief", { ...learnt, patches: 40 });
    await t.put("belief", { ...learnt, id: "b2", trial: "another-trial" });
    await t.put("shop-record", { id: enquiry.id, enquiry: enquiry.id, shop: { labour_per_h: 60 } });
    await t.put("shop-record", { id: enquiry.id, enquiry: enquiry.id, shop: { labour_per_h: 65, currency: "CHF" } });
    await t.put("shop-record", { id: "elsewhere", enquiry: "elsewhere", shop: {} });
    await t.addAnswer(answer(null, 1));
    await t.addAnswer(answer(wire.part, 2));
    await t.addAnswer(answer(wire.part, 2));
    await t.addAnswer(answer("hatch-covers", 3));
    await t.addOutcomes(wire.id, [{ ...graded[0]!, residue_percent: 3, note: `as photo ${sumB} shows` }]);
  });
}
