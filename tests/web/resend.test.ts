import { describe, expect, it } from "vitest";
import { pauseAfter, Resend } from "../../src/web/bench/resend.ts";

describe("trying again", () => {
  it("waits longer each time, a minute at most, and at once when told to", async () => {
    expect([1, 2, 3, 5, 6, 50].map(pauseAfter)).toEqual([2, 4, 8, 32, 60, 60]);
    let through = false;
    let attempts = 0;
    let later: { seconds: number; call: () => void } | null = null;
    const settle = () => new Promise((done) => setImmediate(done));
    const resend = new Resend({
      attempt: async () => {
        attempts += 1;
        return through;
      },
      later: (seconds, call) => {
        later = { seconds, call };
        return () => {
          later = null;
        };
      },
      rest: 15,
    });
    const pauses: number[] = [];
    resend.now();
    for (let i = 0; i < 3; i += 1) {
      await settle();
      pauses.push(later!.seconds);
      later!.call();
    }
    expect(pauses).toEqual([2, 4, 8]);
    await settle();
    // told to during an attempt that nobody answers: the pause comes first
    later!.call();
    resend.now();
    await settle();
    expect([attempts, later!.seconds]).toEqual([5, 32]);
    through = true;
    resend.now();
    await settle();
    expect([attempts, later!.seconds]).toEqual([6, 15]);
    // two calls during one attempt make one more
    resend.now();
    resend.now();
    resend.now();
    await settle();
    expect(attempts).toBe(8);
    resend.stop();
    resend.now();
    await settle();
    expect([attempts, later]).toEqual([8, null]);
  });
});
