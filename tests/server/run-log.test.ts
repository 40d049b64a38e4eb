import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { collectTrial } from "#exchange";
import { buildServer, loadExample } from "#server";
import { openStore, type Store } from "#store";

const root = new URL("../..", import.meta.url).pathname;
const examples = join(root, "examples");
const host = "localhost:4173";
const pulsed = "hatch-covers-pulsed";
let folder = "";
let store: Store;
let app: FastifyInstance;
let burnable: number[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "run-log-"));
  store = openStore(join(folder, "test.db"));
  app = await buildServer({ store, webRoot: null, examples, now: () => "2026-11-25T10:00:00.000Z", draws: 8 });
  await loadExample(store, examples);
  const trial = await store.read((r) => r.latest("trial", pulsed));
  burnable = trial!.record.patches.filter((p) => p.setting !== null).map((p) => p.patch);
});
afterAll(async () => {
  await app.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

let made = 0;
const newId = (): string => {
  made += 1;
  return `00000000-0000-4000-8000-${made.toString(16).padStart(12, "0")}`;
};
const entry = (change: object = {}) => ({
  id: newId(),
  kind: "burned",
  patch: burnable[0]!,
  at: "2026-11-25T10:00:00.000Z",
  by: "Ines",
  ...change,
});
const send = (entries: unknown, trial = pulsed) =>
  app.inject({
    method: "POST",
    url: `/api/trials/${trial}/run-log`,
    headers: { host },
    payload: { entries } as object,
  });
const log = async (trial = pulsed) =>
  (await app.inject({ url: `/api/trials/${trial}/run-log`, headers: { host } })).json() as {
    version: number;
    savedAt: string | null;
    entries: { id: string; at: string; plateTemperature_degC: number | null }[];
  };

describe("the log of a trial", () => {
  it("is empty at first; entries come in whatever order and are kept in order of time", async () => {
    expect(await log()).toEqual({ trial: pulsed, version: 0, savedAt: null, entries: [] });
    const late = entry({ at: "2026-11-25T10:05:00.000Z", patch: burnable[1]! });
    const early = entry({ kind: "temperature", plateTemperature_degC: "296.15 K" });
    const answer = await send([late, early]);
    expect(answer.statusCode, answer.body).toBe(200);
    expect(answer.json()).toEqual({ accepted: [late.id, early.id], refused: [], version: 1 });
    const kept = await log();
    expect(kept.entries.map((e) => e.id)).toEqual([early.id, late.id]);
    expect(kept.entries[0]?.plateTemperature_degC).toBe(23);
    expect(kept.savedAt).not.toBeNull();
  });

  it("takes the same entry twice without a word and without a new version", async () => {
    const one = entry();
    const first = (await send([one, one])).json();
    expect(first).toMatchObject({ accepted: [one.id], refused: [] });
    const second = (await send([one])).json();
    expect(second).toEqual({ accepted: [one.id], refused: [], version: first.version });
    expect((await log()).entries.filter((e) => e.id === one.id)).toHaveLength(1);
  });

  it("refuses lines one by one, each in one sentence, and keeps the rest", async () => {
    const before = (await log()).entries.length;
    const good = entry();
    const taken = entry();
    await send([taken]);
    const rows: [unknown, string][] = [
      [entry({ patch: 999 }), `must be a patch of trial ${pulsed}`],
      [entry({ kind: "photo", coupon: 1, photo: "a".repeat(64) }), "is not kept: send the photograph first"],
      [entry({ kind: "note", note: "x", coupon: 99 }), "invalid coupon: 99"],
      [{ ...taken, patch: burnable[1] }, "the log has another entry under this id"],
      [entry({ kind: "skipped" }), "invalid note"],
      [null, "invalid entry: null"],
      ["burned", "invalid entry"],
    ];
    const answer = (await send([...rows.map(([row]) => row), good])).json();
    expect(answer.accepted).toEqual([good.id]);
    expect(answer.refused.map((r: { line: number }) => r.line)).toEqual(rows.map((_, i) => i + 1));
    rows.forEach(([row, words], i) => {
      expect(answer.refused[i].error).toContain(words);
      expect(answer.refused[i].error).toMatch(/^invalid [^\n]+$/);
      expect(answer.refused[i].id).toBe((row as { id?: string } | null)?.id ?? null);
    });
    expect((await log()).entries).toHaveLength(before + 2);
  });

  it("says in one sentence what is wrong with the whole", async () => {
    for (const [entries, words] of [
      [undefined, "invalid entries"],
      [[], "needs at least 1"],
      [Array.from({ length: 501 }, () => entry()), "at most 500"],
    ] as const) {
      const answer = await send(entries);
      expect(answer.statusCode).toBe(400);
      expect(answer.json().error).toContain(words);
    }
    expect((await send([entry()], "none")).statusCode).toBe(404);
    expect((await app.inject({ url: "/api/trials/none/run-log", headers: { host } })).statusCode).toBe(404);
  });

  it("does not let an untouched patch be burned, and takes a note on it", async () => {
    const trial = (await app.inject({ url: `/api/trials/${pulsed}`, headers: { host } })).json().trial;
    const untouched = trial.patches.find((p: { setting: unknown }) => p.setting === null)?.patch;
    expect(untouched).toBeGreaterThan(0);
    const answer = (
      await send([entry({ patch: untouched }), entry({ patch: untouched, kind: "note", note: "scratched" })])
    ).json();
    expect(answer.refused).toHaveLength(1);
    expect(answer.refused[0].error).toContain("it is not burned");
    expect(answer.accepted).toHaveLength(1);
  });

  it("keeps the entry of a photograph once the photograph is kept; an archive of the trial takes both along", async () => {
    const bytes = readFileSync(join(examples, "photos/hatch-covers.pulsed.coupon-1/turn-0.jpg"));
    const put = await app.inject({
      method: "PUT",
      url: "/api/photos",
      headers: { host, "content-type": "image/jpeg" },
      payload: bytes,
    });
    const photo = entry({ kind: "photo", patch: null, coupon: 1, photo: put.json().sha256 });
    expect((await send([photo])).json().accepted).toEqual([photo.id]);
    const { bundle } = await collectTrial(store, pulsed);
    expect(bundle.records.map((r) => r.kind)).toContain("run-log");
    expect(bundle.photos.map((p) => p.sha256)).toContain(put.json().sha256);
  });

  it("keeps the plan that it speaks of: another one of the same name is refused once a patch was ticked", async () => {
    const put = (trial: object, id: string) =>
      app.inject({ method: "PUT", url: `/api/trials/${id}`, headers: { host }, payload: { trial } as object });
    const { trial } = (await app.inject({ url: `/api/trials/${pulsed}`, headers: { host } })).json();
    const fresh = { ...trial, id: "fresh-plan" };
    const other = { ...fresh, patches: fresh.patches.map((p: object) => ({ ...p, width_mm: 9, height_mm: 9 })) };
    expect((await put(fresh, fresh.id)).statusCode).toBe(200);
    expect((await put(other, fresh.id)).statusCode).toBe(200);
    const tick = entry();
    await send([tick, entry({ kind: "note", note: "cold morning" })], fresh.id);
    const refused = await put(fresh, fresh.id);
    expect(refused.statusCode).toBe(409);
    expect(refused.json().error).toBe(
      "trial fresh-plan was begun at the machine already: keep another plan under another id",
    );
    expect((await put(other, fresh.id)).statusCode).toBe(200);
    await send([entry({ kind: "undo-of", of: tick.id })], fresh.id);
    expect((await put(fresh, fresh.id)).statusCode).toBe(200);
    const elsewhere = await put({ ...fresh, enquiry: "another" }, fresh.id);
    expect(elsewhere.statusCode).toBe(409);
    expect(elsewhere.json().error).toContain(`belongs to part ${trial.part} of enquiry ${trial.enquiry}`);
  });

  it("loses and doubles nothing when phones send at the same time, overlapping and out of order", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.array(fc.nat(9), { minLength: 1, maxLength: 6 }), { minLength: 2, maxLength: 5 }),
        async (phones) => {
          const pool = Array.from({ length: 10 }, (_, i) => entry({ at: `2026-11-25T11:00:0${9 - i}.000Z` }));
          const before = await log();
          const answers = await Promise.all(phones.map((picks) => send(picks.map((i) => pool[i]))));
          for (const answer of answers) expect(answer.json().refused).toEqual([]);
          const used = new Set(phones.flat().map((i) => pool[i]!.id));
          const after = await log();
          expect(after.entries).toHaveLength(before.entries.length + used.size);
          for (const id of used) expect(after.entries.filter((e) => e.id === id)).toHaveLength(1);
          const times = after.entries.map((e) => e.at);
          expect(times).toEqual([...times].sort());
        },
      ),
      { numRuns: 15 },
    );
  });
});
