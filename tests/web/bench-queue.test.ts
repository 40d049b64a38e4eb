import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { RunEntry } from "#terms";
import { standingEntries } from "#trial";
import { Refused } from "../../src/web/api/client.ts";
import { BenchQueue, type QueueTools, type Taken } from "../../src/web/bench/bench-queue.ts";
import { type BenchStore, memoryStore } from "../../src/web/bench/bench-store.ts";

type Network = "up" | "down" | "answers are lost";

/** A server that knows entries by their id, and a network that may lose what is sent or what is answered. */
class Server {
  readonly log = new Map<string, RunEntry>();
  readonly arrivals: string[] = [];
  readonly photos = new Set<string>();
  network: Network = "up";

  async #over<T>(work: () => T): Promise<T> {
    if (this.network === "down") throw new Refused(0, "nobody there");
    const answer = work();
    await Promise.resolve();
    if (this.network === "answers are lost") throw new Refused(0, "no answer");
    return answer;
  }
  send(trialId: string, entries: readonly RunEntry[]): Promise<Taken> {
    return this.#over(() => {
      if (trialId === "gone") throw new Refused(404, "there is no trial gone");
      if (entries.some((e) => e.by === "too much")) throw new Refused(413, "invalid body: too large");
      const accepted: string[] = [];
      const refused: { id: string; error: string }[] = [];
      for (const entry of entries) {
        this.arrivals.push(entry.id);
        if (entry.patch === 99) refused.push({ id: entry.id, error: "invalid patch: 99 (must be a patch)" });
        else if (entry.photo !== null && !this.photos.has(entry.photo))
          refused.push({ id: entry.id, error: "invalid photo" });
        else {
          if (!this.log.has(entry.id)) this.log.set(entry.id, entry);
          accepted.push(entry.id);
        }
      }
      return { accepted, refused };
    });
  }
  putPhoto(bytes: ArrayBuffer): Promise<{ sha256: string }> {
    return this.#over(() => {
      if (bytes.byteLength === 0) throw new Refused(400, "invalid photo: no picture");
      const sha256 = String(bytes.byteLength).padStart(64, "0");
      this.photos.add(sha256);
      return { sha256 };
    });
  }
  readLog() {
    return this.#over(() => ({ entries: [...this.log.values()], old: false }));
  }
}

let made = 0;
const entry = (change: Partial<RunEntry> = {}): RunEntry => {
  made += 1;
  const id = `id-${String(made).padStart(6, "0")}`;
  const at = new Date(Date.UTC(2026, 10, 25) + 1000 * (made % 86_400)).toISOString();
  const none = { coupon: null, by: "", note: "", plateTemperature: null, photo: null, of: null };
  return { id, kind: "burned", patch: 1, at, ...none, ...change };
};
const jpeg = (length: number) => ({ bytes: new ArrayBuffer(length), type: "image/jpeg" });

function tools(server: Server, store: BenchStore, tell = (): void => undefined): QueueTools {
  return {
    store,
    send: (trialId, entries) => server.send(trialId, entries),
    putPhoto: ({ bytes }) => server.putPhoto(bytes),
    readLog: () => server.readLog(),
    alone: async (work) => {
      await work();
      return true;
    },
    tell,
  };
}
const queueOn = (server: Server, store: BenchStore, trialId = "t") => new BenchQueue(trialId, tools(server, store));

describe("entries on their way", () => {
  it("are shown at once, wait while nobody answers, and arrive once when somebody does", async () => {
    const server = new Server();
    server.network = "down";
    const queue = queueOn(server, memoryStore());
    const [first, second] = [entry(), entry({ patch: 2 })];
    await queue.add(second);
    await queue.add(first);
    expect(queue.state().entries.map((e) => e.id)).toEqual([first.id, second.id]);
    expect(await queue.flush()).toBe(false);
    expect(queue.state()).toMatchObject({
      trouble: "the server cannot be reached",
      waiting: [{ id: first.id }, { id: second.id }],
    });
    server.network = "up";
    expect(await queue.flush()).toBe(true);
    expect(queue.state()).toMatchObject({ trouble: null, waiting: [], refused: [] });
    expect(queue.state().entries).toHaveLength(2);
    expect([...server.log.keys()]).toEqual([first.id, second.id]);
  });

  it("stay on the list between being taken and being read back", async () => {
    const server = new Server();
    const store = memoryStore();
    const queue = new BenchQueue("t", {
      ...tools(server, store),
      readLog: () => Promise.reject(new Refused(0, "nobody there")),
    });
    const tick = entry();
    await queue.add(tick);
    await queue.flush();
    expect(server.log.size).toBe(1);
    expect(queue.state()).toMatchObject({ waiting: [], trouble: "the server cannot be reached" });
    // the page is opened anew without a network
    const again = queueOn(server, store);
    await again.reload();
    expect(again.state().entries.map((e) => e.id)).toEqual([tick.id]);
  });

  it("of a log that this phone kept earlier are no answer of the server, and take nothing away", async () => {
    const server = new Server();
    const store = memoryStore();
    const queue = new BenchQueue("t", { ...tools(server, store), readLog: async () => ({ entries: [], old: true }) });
    await queue.add(entry());
    expect(await queue.flush()).toBe(false);
    expect(queue.state().trouble).not.toBe("");
    expect(queue.state().entries).toHaveLength(1);
  });

  it("that the server says nothing of are sent once in an attempt, and wait for the next", async () => {
    let sent = 0;
    const queue = new BenchQueue("t", {
      ...tools(new Server(), memoryStore()),
      send: async () => {
        sent += 1;
        // An attempt that goes on and on would never come to its end.
        if (sent > 5) throw new Refused(0, "nobody there");
        return { accepted: [], refused: [{ id: null, error: "invalid entry" }] };
      },
    });
    await queue.add(entry());
    await queue.flush();
    expect(sent).toBe(1);
    expect(queue.state().waiting).toHaveLength(1);
    await queue.flush();
    expect(sent).toBe(2);
  });

  it("that are refused stay until a person has seen them, with the reason, and hold up no other", async () => {
    const server = new Server();
    const store = memoryStore();
    const queue = queueOn(server, store);
    const bad = entry({ patch: 99 });
    const large = entry({ by: "too much" });
    const good = entry();
    for (const one of [bad, large, good]) await queue.add(one);
    await queue.flush();
    expect([...server.log.keys()]).toEqual([good.id]);
    expect(queue.state().refused.map((r) => [r.id, r.line])).toEqual([
      [bad.id, "invalid patch: 99 (must be a patch)"],
      [large.id, "invalid body: too large"],
    ]);
    expect(queue.state().entries.map((e) => e.id)).toEqual([good.id]);
    const again = queueOn(server, store);
    await again.reload();
    expect(again.state().refused).toHaveLength(2);
    await again.sendAgain(bad.id);
    expect(again.state().waiting).toHaveLength(1);
    await again.flush();
    await again.dismiss(bad.id);
    await again.dismiss(large.id);
    expect(again.state().refused).toEqual([]);
  });

  it("of a trial that the server has not keep no other waiting, and wait themselves", async () => {
    const server = new Server();
    const store = memoryStore();
    await queueOn(server, store, "gone").add(entry());
    const queue = queueOn(server, store);
    await queue.add(entry());
    await queue.flush();
    expect(server.log.size).toBe(1);
    expect(queue.state()).toMatchObject({ trouble: "there is no trial gone", waiting: [{ trialId: "gone" }] });
  });

  it("take back a tick that has not been sent yet as well as one that has", async () => {
    const server = new Server();
    server.network = "down";
    const queue = queueOn(server, memoryStore());
    const tick = entry();
    await queue.add(tick);
    await queue.add(entry({ kind: "undo-of", of: tick.id }));
    expect(standingEntries(queue.state().entries)).toEqual([]);
    server.network = "up";
    await queue.flush();
    expect(server.log.size).toBe(2);
    expect(standingEntries([...server.log.values()])).toEqual([]);
  });
});

describe("photographs", () => {
  it("go after the ticks, and are noted once they are kept", async () => {
    const server = new Server();
    const store = memoryStore();
    const queue = queueOn(server, store);
    const photo = entry({ kind: "photo", coupon: 1 });
    const tick = entry();
    await queue.add(photo, jpeg(7));
    await queue.add(tick);
    await queue.flush();
    expect(server.arrivals).toEqual([tick.id, photo.id]);
    expect(server.log.get(photo.id)?.photo).toBe("7".padStart(64, "0"));
    expect(await store.photo(photo.id)).toBeNull();
  });

  it("hold up no tick that is made while one is sent", async () => {
    const server = new Server();
    const given = tools(server, memoryStore());
    const late = entry();
    const queue: BenchQueue = new BenchQueue("t", {
      ...given,
      putPhoto: async (photo) => {
        if (!server.arrivals.includes(late.id)) await queue.add(late);
        return given.putPhoto(photo);
      },
    });
    const photos = [entry({ kind: "photo", coupon: 1 }), entry({ kind: "photo", coupon: 2 })];
    for (const [i, photo] of photos.entries()) await queue.add(photo, jpeg(i + 1));
    await queue.flush();
    expect(server.arrivals).toEqual([photos[0]!.id, late.id, photos[1]!.id]);
    expect(queue.state().waiting).toEqual([]);
  });

  it("that are no pictures, or are lost, are refused with the reason", async () => {
    const server = new Server();
    const store = memoryStore();
    const queue = queueOn(server, store);
    const empty = entry({ kind: "photo", coupon: 1 });
    await queue.add(empty, jpeg(0));
    const lost = entry({ kind: "photo", coupon: 1 });
    await store.add({ id: lost.id, trialId: "t", entry: lost, state: "waiting", line: "", withPhoto: true }, null);
    await queue.flush();
    expect(queue.state().refused.map((r) => r.line)).toEqual([
      "invalid photo: no picture",
      "this phone has lost the photograph",
    ]);
  });
});

describe("whatever the network does", () => {
  const step = fc.oneof(
    { weight: 4, arbitrary: fc.record({ do: fc.constant("tick" as const), who: fc.nat(2), patch: fc.nat(5) }) },
    { weight: 1, arbitrary: fc.record({ do: fc.constant("bad" as const), who: fc.nat(2) }) },
    { weight: 1, arbitrary: fc.record({ do: fc.constant("photo" as const), who: fc.nat(2) }) },
    { weight: 1, arbitrary: fc.record({ do: fc.constant("back" as const), who: fc.nat(2) }) },
    { weight: 3, arbitrary: fc.record({ do: fc.constant("send" as const), who: fc.nat(2) }) },
    { weight: 1, arbitrary: fc.record({ do: fc.constant("reopen" as const), who: fc.nat(2) }) },
    {
      weight: 3,
      arbitrary: fc.record({
        do: fc.constant("network" as const),
        to: fc.constantFrom<Network>("up", "down", "answers are lost"),
      }),
    },
  );

  it("nothing is lost and nothing doubled, with two pages on one phone and another phone", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { maxLength: 40 }), async (steps) => {
        const server = new Server();
        // 0 and 1 are pages of one browser, 2 is another phone
        const own = memoryStore();
        const stores = [own, own, memoryStore()];
        const queues = stores.map((store) => queueOn(server, store));
        const good: string[] = [];
        const bad: string[] = [];
        const running: Promise<unknown>[] = [];
        for (const s of steps) {
          if (s.do === "network") {
            server.network = s.to;
            continue;
          }
          const queue = queues[s.who]!;
          if (s.do === "reopen") queues[s.who] = queueOn(server, stores[s.who]!);
          // not waited for: entries come in while others are being sent
          else if (s.do === "send") running.push(queue.flush());
          else {
            const last = queue.state().entries.at(-1);
            const one =
              s.do === "tick"
                ? entry({ patch: s.patch })
                : s.do === "bad"
                  ? entry({ patch: 99 })
                  : s.do === "photo"
                    ? entry({ kind: "photo", coupon: 1 })
                    : entry({ kind: "undo-of", of: last?.id ?? "none" });
            (s.do === "bad" ? bad : good).push(one.id);
            await queue.add(one, s.do === "photo" ? jpeg(made + 1) : null);
            // it is on the list of the one who made it, at once
            if (s.do !== "bad") expect(queue.state().entries.map((e) => e.id)).toContain(one.id);
          }
        }
        await Promise.all(running);
        server.network = "up";
        for (const queue of queues) expect(await queue.flush()).toBe(true);
        for (const queue of queues) await queue.flush();
        expect([...server.log.keys()].sort()).toEqual([...good].sort());
        for (const queue of queues) {
          const { entries, waiting } = queue.state();
          expect(waiting).toEqual([]);
          expect(entries.map((e) => e.id).sort()).toEqual([...good].sort());
        }
        const refused = new Set(queues.flatMap((q) => q.state().refused.map((r) => r.id)));
        expect([...refused].sort()).toEqual([...bad].sort());
      }),
      { numRuns: 150 },
    );
  });
});
