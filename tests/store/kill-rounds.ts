import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { openStore } from "#store";

const writer = fileURLToPath(new URL("./kill-writer.ts", import.meta.url));

/** Starts a writer, kills it with -9 a while after its first acknowledgement, returns what it acknowledged. */
function killedWriter(path: string, round: number, delay: number): Promise<string[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ["--import", "tsx", writer, path, String(round)]);
    let said = "";
    let complaint = "";
    let armed = false;
    child.stdout.on("data", (data: Buffer) => {
      said += data.toString();
      if (!armed) setTimeout(() => child.kill("SIGKILL"), delay);
      armed = true;
    });
    child.stderr.on("data", (data: Buffer) => {
      complaint += data.toString();
    });
    child.on("close", (code, signal) => {
      if (signal !== "SIGKILL") reject(new Error(`the writer ended by itself (${code}): ${complaint}`));
      // A last line without its end was cut by the kill and is no acknowledgement.
      else resolve(said.split("\n").slice(0, -1));
    });
  });
}

export interface KillTally {
  readonly acknowledged: number;
  readonly missing: readonly string[];
  /** batches of which only one of two rows is there */
  readonly halves: readonly string[];
}

/** Rounds of kill -9 on one database file; afterwards everything acknowledged is looked for. */
export async function killRounds(rounds: number): Promise<KillTally> {
  const folder = mkdtempSync(join(tmpdir(), "scourlight-kill-"));
  try {
    const path = join(folder, "work.db");
    const acknowledged: string[] = [];
    for (let round = 0; round < rounds; round += 1) {
      // Delays from 0 to 60 ms in steps that do not repeat soon, so that the kill meets different moments.
      acknowledged.push(...(await killedWriter(path, round, (round * 37) % 61)));
    }
    const store = openStore(path);
    const perGrader = new Map<string, number>();
    const { titles, photos } = await store.read(async (r) => {
      for (const { outcome } of await r.outcomeHistory("trial-1")) {
        perGrader.set(outcome.grader, (perGrader.get(outcome.grader) ?? 0) + 1);
      }
      const versions = await r.history("enquiry", "enquiry");
      const saved = await Promise.all(versions.map((v) => r.version("enquiry", "enquiry", v.version)));
      return {
        titles: new Set(saved.map((s) => s?.record.title)),
        photos: new Set((await r.photos()).map((p) => p.sha256)),
      };
    });
    const missing: string[] = [];
    for (const line of acknowledged) {
      const [what, name = ""] = line.split(" ");
      const there =
        what === "row"
          ? perGrader.get(name) === 2 && titles.has(name)
          : photos.has(name) && (await store.photo(name)) !== null;
      if (!there) missing.push(line);
    }
    await store.close();
    const halves = [...perGrader].filter(([, n]) => n !== 2).map(([name]) => name);
    return { acknowledged: acknowledged.length, missing, halves };
  } finally {
    rmSync(folder, { recursive: true });
  }
}
