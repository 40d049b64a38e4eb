import { describe, expect, it } from "vitest";
import { main } from "#cli";

const enquiry = new URL("../../examples/enquiry.json", import.meta.url).pathname;

describe("Ctrl+C while a sweep runs", () => {
  it.each(["1", "2"])("ends it in one line with exit code 130 and prints no answer (%s threads)", async (threads) => {
    const out: string[] = [];
    const errors: string[] = [];
    const running = main(
      ["node", "scourlight", "compare", "--enquiry", enquiry, "--draws", "8", "--threads", threads],
      (text) => out.push(text),
      (text) => errors.push(text),
    );
    // The handler is there once the file is read; a signal without one would end the test run.
    while (process.listenerCount("SIGINT") === before) await new Promise((turn) => setTimeout(turn, 5));
    process.emit("SIGINT");
    expect(await running).toBe(130);
    expect(out).toEqual([]);
    expect(errors).toEqual(["the work was cancelled"]);
    expect(process.listenerCount("SIGINT")).toBe(before);
  });
});

const before = process.listenerCount("SIGINT");
