/** One step of the schema. Steps are numbered without gaps and never change once released. */
export interface Migration {
  readonly version: number;
  readonly line: string;
  readonly sql: string;
}

/** Rows of these tables are added and never touched again; the database itself refuses anything else. */
const appendOnly = (table: string): string => `
  CREATE TRIGGER ${table}_no_update BEFORE UPDATE ON ${table}
    BEGIN SELECT RAISE(ABORT, '${table} are only added'); END;
  CREATE TRIGGER ${table}_no_delete BEFORE DELETE ON ${table}
    BEGIN SELECT RAISE(ABORT, '${table} are only added'); END;`;

export const migrations: readonly Migration[] = [
  {
    version: 1,
    line: "records in versions: library files, enquiries, trials, samples",
    sql: `
      CREATE TABLE records (
        row INTEGER PRIMARY KEY,
        kind TEXT NOT NULL,
        id TEXT NOT NULL,
        version INTEGER NOT NULL CHECK (version >= 1),
        enquiry TEXT,
        saved_at TEXT NOT NULL,
        payload TEXT NOT NULL,
        UNIQUE (kind, id, version)
      ) STRICT;
      CREATE INDEX records_by_enquiry ON records (kind, enquiry);
      CREATE VIEW latest_records AS
        SELECT * FROM records r
        WHERE version = (SELECT max(version) FROM records o WHERE o.kind = r.kind AND o.id = r.id);
      ${appendOnly("records")}`,
  },
  {
    version: 2,
    line: "outcomes, one row per grading",
    sql: `
      CREATE TABLE outcomes (
        row INTEGER PRIMARY KEY,
        trial TEXT NOT NULL,
        patch INTEGER NOT NULL,
        grader TEXT NOT NULL,
        saved_at TEXT NOT NULL,
        payload TEXT NOT NULL
      ) STRICT;
      CREATE INDEX outcomes_by_patch ON outcomes (trial, patch, grader, row);
      CREATE VIEW latest_outcomes AS
        SELECT * FROM outcomes r
        WHERE row = (
          SELECT max(row) FROM outcomes o WHERE o.trial = r.trial AND o.patch = r.patch AND o.grader = r.grader);
      ${appendOnly("outcomes")}`,
  },
  {
    version: 3,
    line: "answers with their inputs and model version",
    sql: `
      CREATE TABLE answers (
        row INTEGER PRIMARY KEY,
        enquiry TEXT NOT NULL,
        enquiry_version INTEGER NOT NULL,
        shape TEXT NOT NULL,
        model_version TEXT NOT NULL,
        saved_at TEXT NOT NULL,
        inputs TEXT NOT NULL,
        result TEXT NOT NULL
      ) STRICT;
      CREATE INDEX answers_by_enquiry ON answers (enquiry, row);
      ${appendOnly("answers")}`,
  },
  {
    version: 4,
    line: "photos by hash; the pictures are files beside the database",
    sql: `
      CREATE TABLE photos (
        sha256 TEXT PRIMARY KEY,
        media_type TEXT NOT NULL,
        bytes INTEGER NOT NULL,
        saved_at TEXT NOT NULL
      ) STRICT;
      ${appendOnly("photos")}`,
  },
];

export const schemaVersion = migrations.length;
