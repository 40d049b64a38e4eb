import { type ChildProcessWithoutNullStreams, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { parseEnquiryFile, trialToWire } from "#contract";
import { openStore } from "#store";
import { trial } from "../web/photographs/graded.ts";
import { dice, type Sent, workUntilGone } from "./server-kill/clients.ts";
import { lookFor } from "./server-kill/kept.ts";
import { record } from "./web/record.ts";

const ROUNDS = 100;
const script = fileURLToPath(new URL("./server-kill/child.ts", import.meta.url));

/** A process that has loaded the program and waits: loading takes longer than a round, so the next ones load meanwhile. */
class Standby {
  readonly child: ChildProcessWithoutNullStreams;
  private complaint = "";

  constructor(folder: string, how: string) {
    this.child = spawn(process.execPath, ["--import", "tsx", script, folder, how]);
    this.child.stderr.on("data", (data: Buffer) => {
      this.complaint += data.toString();
    });
  }

  /** Opens the folder and serves it; the address. */
  serve(): Promise<string> {
    return new Promise((resolve, reject) => {
      this.child.stdout.once("data", (data: Buffer) => resolve(data.toString().trim()));
      this.child.once("close", (code) => reject(new Error(`the server ended by itself (${code}): ${this.complaint}`)));
      this.child.stdin.write("go\n");
    });
  }
}

interface Tally {
  readonly log: readonly Sent[];
  readonly lost: readonly string[];
  readonly broken: readonly string[];
}

/** Rounds of kill -9 on one data folder; afterwards everything that was answered is looked for. */
async function killRounds(rounds: number, how: "as it is" | "early"): Promise<Tally> {
  const folder = mkdtempSync(join(tmpdir(), "scourlight-server-kill-"));
  const random = dice(20_261_129);
  const log: Sent[] = [];
  const photos = new Map<string, Buffer>();
  const waiting = [new Standby(folder, how)];
  try {
    const store = openStore(join(folder, "scourlight.db"));
    await store.write(async (tx) => {
      await tx.put("enquiry", parseEnquiryFile({ id: "yard", parts: [{ id: trial.partId }] }));
      await tx.put("trial", trialToWire(trial, []));
    });
    await store.close();
    const broken: string[] = [];
    for (let round = 1; round <= rounds; round++) {
      const standby = waiting.shift()!;
      waiting.push(new Standby(folder, how));
      const { child } = standby;
      const url = await standby.serve();
      const gone = new Promise((resolve) => child.once("exit", resolve));
      // From before the first answer to many answers later, and then at some moment of the write that follows.
      // Photographs and gradings take longer than the rest: every other round waits for some of these.
      const counted = ([null, "photo", null, "grading"] as const)[round % 4] ?? null;
      let left = Math.floor((counted === null ? 30 : 3) * random());
      const kill = (): void => void setTimeout(() => child.kill("SIGKILL"), Math.floor(15 * random()));
      if (left === 0) kill();
      const work = workUntilGone(url, random, log, photos, (what) => {
        if (counted !== null && what !== counted) return;
        left -= 1;
        if (left === 0) kill();
      });
      await Promise.all([gone, work]);
      // Looked at now and then, so that a fault has a round.
      if (round % 50 === 0)
        broken.push(...(await lookFor(folder, log, photos)).broken.map((b) => `round ${round}: ${b}`));
    }
    const { lost, broken: last } = await lookFor(folder, log, photos);
    return { log, lost, broken: [...broken, ...last] };
  } finally {
    for (const { child } of waiting) child.kill("SIGKILL");
    rmSync(folder, { recursive: true, force: true });
  }
}

it("loses nothing that was answered, in 100 rounds of kill -9 among several clients at once", async () => {
  const { log, lost, broken } = await killRounds(ROUNDS, "as it is");
  const acknowledged = log.filter((s) => s.acknowledged);
  record({ lost_after_kill: lost.length });
  console.log(`${acknowledged.length} of ${log.length} writes acknowledged, ${lost.length} of these lost`);
  expect(acknowledged.length).toBeGreaterThan(800);
  for (const what of ["enquiry", "shop", "grading", "outcomes", "photo", "entry"])
    expect(acknowledged.filter((s) => s.what === what).length, what).toBeGreaterThan(10);
  expect(lost).toEqual([]);
  expect(broken).toEqual([]);
}, 900_000);

it("would notice a server that answers before a write is durable", async () => {
  const { lost } = await killRounds(5, "early");
  expect(lost.length).toBeGreaterThan(0);
}, 200_000);
