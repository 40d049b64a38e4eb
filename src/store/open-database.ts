import { closeSync, existsSync, openSync, readSync, statSync } from "node:fs";
import { dirname } from "node:path";
import Database from "libsql";
import { InvalidInput, invalid } from "#units";
import { migrations, schemaVersion } from "./migrations.ts";

export type Db = InstanceType<typeof Database>;

/** "SCOU": marks a database file as one of ours. */
const applicationId = 0x53434f55;
const fileStart = "SQLite format 3\0";

function requireDatabaseFile(path: string): void {
  if (!existsSync(path)) {
    if (!existsSync(dirname(path))) invalid("database", path, "", "its folder does not exist");
    return;
  }
  if (!statSync(path).isFile()) invalid("database", path, "", "is not a file");
  const head = Buffer.alloc(16);
  const file = openSync(path, "r");
  const length = readSync(file, head, 0, 16, 0);
  closeSync(file);
  if (length > 0 && head.toString("latin1", 0, length) !== fileStart) invalid("database", path, "", "is no database");
}

const pragmaNumber = (db: Db, name: string): number => {
  const row = db.prepare(`PRAGMA ${name}`).get() as Record<string, unknown> | undefined;
  return Number(row?.[name] ?? 0);
};

/** Brings the schema up to `target`, each step in a transaction of its own with its number. */
export function migrate(db: Db, target: number = schemaVersion): void {
  for (const step of migrations) {
    if (step.version <= pragmaNumber(db, "user_version") || step.version > target) continue;
    db.exec("BEGIN IMMEDIATE");
    try {
      // Another process may have taken the step while this one waited for the lock.
      if (pragmaNumber(db, "user_version") < step.version) {
        db.exec(step.sql);
        db.exec(`PRAGMA user_version = ${step.version}`);
        db.exec(`PRAGMA application_id = ${applicationId}`);
      }
      db.exec("COMMIT");
    } catch (error) {
      db.exec("ROLLBACK");
      throw error;
    }
  }
}

function requireOurs(db: Db, path: string): void {
  const version = pragmaNumber(db, "user_version");
  const tables = (db.prepare("SELECT count(*) AS n FROM sqlite_schema").get() as { n: number }).n;
  if (tables > 0 && pragmaNumber(db, "application_id") !== applicationId) {
    invalid("database", path, "", "is a database of another program");
  }
  if (version > schemaVersion) {
    invalid("database", path, "", `was written by a newer version: schema ${version}, this one knows ${schemaVersion}`);
  }
}

/** Opens or makes the file with the promises of the store: write-ahead log, and a full sync at every commit. */
export function openDatabase(path: string, target: number = schemaVersion): Db {
  requireDatabaseFile(path);
  let db: Db | null = null;
  try {
    db = new Database(path, { timeout: 5000 });
    requireOurs(db, path);
    db.exec("PRAGMA journal_mode = WAL");
    db.exec("PRAGMA synchronous = FULL");
    migrate(db, target);
    return db;
  } catch (error) {
    db?.close();
    if (error instanceof InvalidInput) throw error;
    const reason = error instanceof Error ? error.message.split("\n")[0]! : "unknown";
    throw new InvalidInput("database", path, "", `cannot be opened: ${reason}`);
  }
}
