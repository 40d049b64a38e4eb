import { createHash } from "node:crypto";
import { rmSync } from "node:fs";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { collectTrial, libraryOf, packTrial, unpackTrial } from "#exchange";
import { enquiry, fill, scratch, ticking, trialRecord } from "./filled-store.ts";

const metadata = "ro-crate-metadata.json";
type Files = Record<string, Uint8Array>;
let good: Uint8Array;
beforeAll(async () => {
  const folder = scratch();
  const store = ticking(folder);
  await fill(store);
  const { bundle } = await collectTrial(store, trialRecord.id);
  good = packTrial(bundle, libraryOf(bundle));
  await store.close();
  rmSync(folder, { recursive: true });
});
const made: string[] = [];
afterAll(() => expect(made.every((line) => /^invalid [^\n]*\)$/.test(line))).toBe(true));

/** The line of the refusal, which must be one. */
function line(bytes: Uint8Array, limits?: { files: number; bytes: number }): string {
  try {
    unpackTrial(bytes, limits);
  } catch (error) {
    made.push((error as Error).message);
    return (error as Error).message;
  }
  return "taken";
}

const changed = (change: (files: Files) => void): Uint8Array => {
  const files = unzipSync(good);
  change(files);
  return zipSync(files);
};
// biome-ignore lint/suspicious/noExplicitAny: a tampered file has no type
type Loose = any;
/** Changes a JSON file and, where asked, makes its size and sum right again in the metadata. */
const withJson = (path: string, change: (json: Loose) => void, mend = true): Uint8Array =>
  changed((files) => {
    const json = JSON.parse(strFromU8(files[path]!));
    change(json);
    files[path] = strToU8(JSON.stringify(json));
    if (path === metadata || !mend) return;
    const crate = JSON.parse(strFromU8(files[metadata]!));
    const entity = crate["@graph"].find((e: Loose) => e["@id"] === path);
    entity.contentSize = String(files[path]!.length);
    entity.sha256 = createHash("sha256").update(files[path]!).digest("hex");
    files[metadata] = strToU8(JSON.stringify(crate));
  });
const entity = (crate: Loose, id: string) => crate["@graph"].find((e: Loose) => e["@id"] === id);

describe("archives that are refused", () => {
  it("takes the untouched one, and one that was packed again by another tool", () => {
    expect(line(good)).toBe("taken");
    expect(
      line(changed((files) => Object.assign(files, { "records/": new Uint8Array(), "my notes.txt": strToU8("x") }))),
    ).toBe("taken");
  });

  it("no zip, a torn one, an empty one", () => {
    expect(line(strToU8("not a zip"))).toMatch(/^invalid archive: .* \(is no zip archive, or damaged\)$/);
    expect(line(new Uint8Array())).toMatch(/is no zip archive/);
    expect(line(good.subarray(0, good.length / 2))).toMatch(/is no zip archive/);
    expect(line(zipSync({}))).toBe("invalid archive: no metadata (must have ro-crate-metadata.json at its root)");
    for (let at = 30; at < good.length - 22; at += 997) {
      const torn = new Uint8Array(good);
      torn[at] = torn[at]! ^ 0x55;
      expect(line(torn), `byte ${at}`).toMatch(/^(invalid |taken$)/);
    }
  });

  it("paths that lead out of the archive or that a machine cannot hold", () => {
    for (const path of ["../evil.json", "/etc/evil", "a/../../b", "C:\\evil", "a\\b", "a//b", "./a", "a/./b", "a\nb"])
      expect(line(changed((files) => Object.assign(files, { [path]: strToU8("x") }))), path).toMatch(
        /^invalid archive path: .* \(must be a plain path inside the archive\)$/,
      );
    const proto = changed((files) => Object.assign(files, { "__pro2o__/a": strToU8("x") }));
    const named = Buffer.from(Buffer.from(proto).toString("latin1").replaceAll("__pro2o__", "__proto__"), "latin1");
    expect(line(named)).toMatch(/^invalid archive path/);
  });

  it("one path twice", () => {
    const twice = changed((files) => Object.assign(files, { "a.txt": strToU8("x"), "b.txt": strToU8("y") }));
    const same = Buffer.from(Buffer.from(twice).toString("latin1").replaceAll("b.txt", "a.txt"), "latin1");
    expect(line(same)).toBe("invalid archive path: a.txt (must not stand twice in the archive)");
  });

  it("too much to unpack, by the directory, before anything is unpacked", () => {
    const zeros = zipSync({ [metadata]: new Uint8Array(3_000_000), b: new Uint8Array(3_000_000) });
    expect(zeros.length).toBeLessThan(10_000);
    expect(line(zeros, { files: 10, bytes: 5e6 })).toBe("invalid archive: over 5 MB (unpacked, at most 5 MB are read)");
    expect(line(good, { files: 3, bytes: 1e9 })).toBe("invalid archive: over 3 files (at most 3 are read)");
  });

  it("a directory that states less than what comes out", () => {
    const bomb = zipSync({ [metadata]: new Uint8Array(50_000_000) });
    const lying = Buffer.from(bomb);
    const central = lying.lastIndexOf(Buffer.from([0x50, 0x4b, 1, 2]));
    lying.writeUInt32LE(100, central + 24);
    expect(line(lying)).toMatch(/^invalid ro-crate-metadata.json: /);
  });

  it("metadata that is missing, torn, of another standard, content or version", () => {
    expect(line(changed((files) => delete files[metadata]))).toMatch(/no metadata/);
    expect(line(changed((files) => Object.assign(files, { [metadata]: strToU8("{") })))).toMatch(
      /^invalid ro-crate-metadata.json: .*well-formed JSON/,
    );
    expect(line(changed((files) => Object.assign(files, { [metadata]: strToU8("[]") })))).toMatch(/^invalid /);
    expect(line(withJson(metadata, (c) => (entity(c, metadata).conformsTo = { "@id": "https://example.org/2" })))).toBe(
      "invalid conformsTo: https://example.org/2 (must be an edition of https://w3id.org/ro/crate/1.)",
    );
    expect(line(withJson(metadata, (c) => (entity(c, "./").additionalProperty = [])))).toBe(
      "invalid archive metadata: another content (holds no scourlight-trial)",
    );
    expect(line(withJson(metadata, (c) => (entity(c, "#format").value = 2)))).toBe(
      "invalid archive format: 2 (was written by a newer version; this one knows 1)",
    );
    expect(line(withJson(metadata, (c) => (entity(c, "#format").value = "1")))).toMatch(
      /^invalid archive format: 1 \(/,
    );
    expect(line(withJson(metadata, (c) => (entity(c, metadata).about = { "@id": "#nowhere" })))).toMatch(
      /not in the graph/,
    );
  });

  it("a file with another content than stated, or that is not there", () => {
    const rule = "has another content than its sha256 in the metadata says";
    expect(line(withJson("outcomes.json", (o) => o.pop(), false))).toBe(
      `invalid archive file: outcomes.json (${rule})`,
    );
    const photo = Object.keys(unzipSync(good)).find((path) => path.endsWith(".jpg"))!;
    expect(line(changed((files) => (files[photo]![2]! ^= 1)))).toMatch(/has another content than its sha256/);
    expect(line(changed((files) => delete files[photo]))).toMatch(/the metadata names it and it is missing\)$/);
    expect(line(withJson(metadata, (c) => (entity(c, "./").hasPart = [])))).toMatch(/^invalid archive: 0 trials/);
  });

  it("records that have not the shape of their kind", () => {
    const enquiryFile = `records/enquiry/${enquiry.id}.json`;
    expect(line(withJson(enquiryFile, (r) => (r.versions[0].record.parts = [])))).toMatch(
      /^invalid parts: a list of 0/,
    );
    expect(line(withJson(enquiryFile, (r) => (r.versions[1].version = 3)))).toMatch(/must be 2: versions have no gaps/);
    expect(line(withJson(enquiryFile, (r) => (r.versions[0].record.id = "x")))).toMatch(/^invalid enquiry id: x /);
    expect(line(withJson(enquiryFile, (r) => (r.kind = "recipe")))).toMatch(/^invalid kind: recipe /);
    expect(line(withJson(enquiryFile, (r) => (r.versions[0].savedAt = "yesterday")))).toMatch(
      /^invalid versions\[0\].savedAt/,
    );
    expect(line(withJson("outcomes.json", (o) => (o[0].outcome.residue_percent = 101)))).toMatch(
      /^invalid residue_percent: 101 % /,
    );
    expect(line(withJson("outcomes.json", (o) => (o[0].outcome.trial = "other")))).toMatch(
      /^invalid outcome trial: other/,
    );
    expect(line(withJson("answers/1.json", (a) => (a.result.verdict = "perhaps")))).toMatch(
      /^invalid verdict: perhaps/,
    );
    expect(line(withJson("answers/1.json", (a) => (a.enquiry = "other")))).toMatch(/^invalid answer enquiry: other/);
    expect(line(withJson("records/library/own.json", (r) => (r.versions[0].record.file.source = "nobody")))).toMatch(
      /^invalid source: nobody/,
    );
    expect(line(withJson("photos.json", (p) => (p[0].sha256 = "0".repeat(64))))).toMatch(/^invalid archive photo: /);
    expect(line(withJson("photos.json", (p) => (p[0].file = "../x")))).toMatch(/^invalid archive photo: /);
  });
});
