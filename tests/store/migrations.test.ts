import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openStore } from "#store";
import { migrations, schemaVersion } from "../../src/store/migrations.ts";
import { migrate, openDatabase } from "../../src/store/open-database.ts";

let folder: string;
const file = (name = "work.db") => join(folder, name);
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "scourlight-migrate-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

/** One row per table, as a program of that schema version would have left it. */
const rows: Readonly<Record<number, readonly [table: string, sql: string]>> = {
  1: ["records", "INSERT INTO records VALUES (1, 'enquiry', 'e', 1, NULL, 't', '{}')"],
  2: ["outcomes", "INSERT INTO outcomes VALUES (1, 'trial-1', 1, 'A', 't', '{}')"],
  3: ["answers", "INSERT INTO answers VALUES (1, 'e', 1, 'triage', 'm', 't', '{}', '{}')"],
  4: ["photos", "INSERT INTO photos VALUES ('00', 'image/png', 3, 't')"],
};

describe("migrations", () => {
  it("are numbered without gaps", () => {
    expect(migrations.map((m) => m.version)).toEqual(migrations.map((_, i) => i + 1));
    expect(schemaVersion).toBe(migrations.length);
    expect(Object.keys(rows).map(Number)).toEqual(migrations.map((m) => m.version));
  });

  it.each(migrations.map((m) => [m.version, m.line]))("step %i (%s) keeps what was there and is reached", (version) => {
    const before = openDatabase(file(), version);
    for (let step = 1; step <= version; step += 1) before.exec(rows[step]![1]);
    expect(before.prepare("PRAGMA user_version").get()).toMatchObject({ user_version: version });
    const later = rows[version + 1];
    if (later !== undefined) expect(() => before.prepare(`SELECT * FROM ${later[0]}`).all()).toThrow(/no such table/);
    before.close();
    const after = openDatabase(file());
    expect(after.prepare("PRAGMA user_version").get()).toMatchObject({ user_version: schemaVersion });
    for (let step = 1; step <= version; step += 1) {
      expect(after.prepare(`SELECT * FROM ${rows[step]![0]}`).all()).toHaveLength(1);
    }
    after.close();
  });

  it("leave a finished schema alone", () => {
    const db = openDatabase(file());
    migrate(db);
    expect(db.prepare("PRAGMA user_version").get()).toMatchObject({ user_version: schemaVersion });
    db.close();
  });

  it("make tables whose rows nobody can change", () => {
    const db = openDatabase(file());
    for (const [table, sql] of Object.values(rows)) {
      db.exec(sql);
      expect(() => db.exec(`UPDATE ${table} SET rowid = 2`)).toThrow(/are only added/);
      expect(() => db.exec(`DELETE FROM ${table}`)).toThrow(/are only added/);
      expect(db.prepare(`SELECT * FROM ${table}`).all()).toHaveLength(1);
    }
    db.close();
  });
});

describe("opening", () => {
  it("sets the write-ahead log and a full sync", () => {
    const db = openDatabase(file());
    expect(db.prepare("PRAGMA journal_mode").get()).toMatchObject({ journal_mode: "wal" });
    expect(db.prepare("PRAGMA synchronous").get()).toMatchObject({ synchronous: 2 });
    db.close();
  });

  const refusal = (path: string): string => {
    try {
      openStore(path);
    } catch (error) {
      return (error as Error).message.replace(folder, "");
    }
    return "opened";
  };

  it("refuses in one line what is no database, another's, newer, damaged or nowhere", () => {
    writeFileSync(file("text.db"), "dear diary, this is no database at all");
    expect(refusal(file("text.db"))).toMatch(/^invalid database: \S+ \(is no database\)$/);

    writeFileSync(file("short.db"), "x");
    expect(refusal(file("short.db"))).toMatch(/\(is no database\)$/);

    const other = openDatabase(file("other.db"), 0);
    other.exec("CREATE TABLE recipes (name TEXT)");
    other.close();
    expect(refusal(file("other.db"))).toMatch(/\(is a database of another program\)$/);

    const newer = openDatabase(file("newer.db"));
    newer.exec(`PRAGMA user_version = ${schemaVersion + 1}`);
    newer.close();
    expect(refusal(file("newer.db"))).toMatch(/\(was written by a newer version: schema 5, this one knows 4\)$/);

    writeFileSync(file("broken.db"), Buffer.concat([Buffer.from("SQLite format 3\0"), Buffer.alloc(5000, 7)]));
    expect(refusal(file("broken.db"))).toMatch(/^invalid database: \S+ \(cannot be opened: [^\n]+\)$/);

    expect(refusal(join(folder, "nowhere", "work.db"))).toMatch(/\(its folder does not exist\)$/);
    expect(refusal(folder)).toMatch(/\(is not a file\)$/);
  });

  it("takes an empty file as a new one", async () => {
    writeFileSync(file("empty.db"), "");
    const store = openStore(file("empty.db"));
    expect(await store.read((r) => r.list("enquiry"))).toEqual([]);
    await store.close();
  });
});
