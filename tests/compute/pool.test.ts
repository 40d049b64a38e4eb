import type { Worker } from "node:worker_threads";
import { describe, expect, it } from "vitest";
import type { PartTask } from "#workflows";
import { Pool } from "../../src/compute/pool.ts";
import { threadFromSource } from "../../src/compute/thread-file.ts";

const start = threadFromSource(new URL("./lost-thread.ts", import.meta.url))!;
const busy = threadFromSource(new URL("./busy-thread.ts", import.meta.url))!;

describe("a thread that dies", () => {
  it("fails its task in one clear sentence, and the next task gets a new thread", async () => {
    const pool = new Pool(start, { parts: [], seed: 1, drawCount: 8 }, 1);
    const task = { kind: "survey" } as PartTask;
    const both = await Promise.allSettled([pool.run(task), pool.run(task)]);
    for (const one of both) {
      expect(one.status).toBe("rejected");
      expect(String((one as PromiseRejectedResult).reason.message)).toBe(
        "a thread of the sweep was lost while working a survey (it ended with 3)",
      );
    }
  });
});

describe("threads in the middle of long work", () => {
  it("are ended at once by a stop, and what waited fails with its reason", async () => {
    const ended: number[] = [];
    const watched = (data: unknown): Worker => busy(data).on("exit", (code) => ended.push(code));
    const pool = new Pool(watched, { parts: [], seed: 1, drawCount: 8 }, 2);
    const task = { kind: "survey" } as PartTask;
    const all = Promise.allSettled([pool.run(task), pool.run(task), pool.run(task)]);
    await new Promise((turn) => setTimeout(turn, 500));
    await pool.stop(new Error("enough"));
    expect(ended).toHaveLength(2);
    for (const one of await all) expect((one as PromiseRejectedResult).reason.message).toBe("enough");
  });
});
