import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyInstance } from "fastify";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type GradingWire, validatePublished } from "#contract";
import { buildServer, loadExample } from "#server";
import { openStore, type Store } from "#store";
import { answerInput } from "../../src/server/answer-input.ts";
import { gradedFigures } from "../../src/server/graded-figures.ts";
import { learntLapse } from "../../src/server/learnt-lapse.ts";

const root = new URL("../..", import.meta.url).pathname;
const examples = join(root, "examples");
const trial = "hatch-covers-pulsed";
const host = "localhost:4173";
const pictures = [0, 1].map((turn) =>
  readFileSync(join(examples, `photos/hatch-covers.pulsed.coupon-1/turn-${turn}.jpg`)),
);
const hashOf = (bytes: Buffer): string => createHash("sha256").update(bytes).digest("hex");
let folder = "";
let store: Store;
let app: FastifyInstance;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "photos-"));
  store = openStore(join(folder, "test.db"));
  app = await buildServer({ store, webRoot: null, examples, now: () => "2026-11-25T10:00:00.000Z", draws: 8 });
  await loadExample(store, examples);
});
afterAll(async () => {
  await app.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

function send(method: "GET" | "PUT" | "POST", url: string, body?: unknown, type = "application/json") {
  const headers = { host, ...(body === undefined ? {} : { "content-type": type }) };
  const payload = Buffer.isBuffer(body) || typeof body === "string" ? body : JSON.stringify(body);
  return app.inject({ method, url: `/api${url}`, headers, ...(body === undefined ? {} : { payload }) });
}
const sendPhoto = (bytes: Buffer, type = "image/jpeg") => send("PUT", "/photos", bytes, type);

describe("a photograph", () => {
  it("is kept as it came, known by its bytes, whatever it is said to be", async () => {
    const put = await sendPhoto(pictures[0]!, "image/png");
    expect(put.statusCode, put.body).toBe(200);
    expect(put.json()).toEqual({ sha256: hashOf(pictures[0]!) });
    expect((await sendPhoto(pictures[0]!)).json()).toEqual(put.json());
    const got = await send("GET", `/photos/${put.json().sha256}`);
    expect(got.rawPayload.equals(pictures[0]!)).toBe(true);
    expect(got.headers["content-type"]).toBe("image/jpeg");
    expect(got.headers["x-content-type-options"]).toBe("nosniff");
    expect(got.headers["cache-control"]).toContain("immutable");
    expect(got.headers["content-security-policy"]).toContain("default-src 'none'");
  });

  it("may be HEIC, which is looked at on a thread of its own", async () => {
    const heic = readFileSync(join(root, "tests/photos/samples/plain.heic"));
    const put = await sendPhoto(heic, "application/octet-stream");
    expect(put.statusCode, put.body).toBe(200);
    expect((await send("GET", `/photos/${hashOf(heic)}`)).headers["content-type"]).toBe("image/heic");
  });

  it("that is none, is damaged, empty or too large is refused in one line and not kept", async () => {
    const before = (await store.read((r) => r.photos())).length;
    const heic = readFileSync(join(root, "tests/photos/samples/plain.heic"));
    const table = [
      [await sendPhoto(Buffer.from("<svg onload='x'/>"), "image/jpeg"), 400, "another kind of file"],
      [await sendPhoto(pictures[1]!.subarray(0, 60_000)), 400, "is damaged or ends too early"],
      [await sendPhoto(heic.subarray(0, 300), "image/heic"), 400, "invalid photo"],
      [await sendPhoto(Buffer.alloc(0)), 400, "invalid"],
      [await sendPhoto(Buffer.alloc(30_000_001, 1)), 413, "30 MB"],
      [await send("PUT", "/photos", { a: 1 }), 400, "invalid photo: no picture"],
      [await send("PUT", "/photos", "patch\n1\n", "text/csv"), 400, "invalid photo: no picture"],
      [await sendPhoto(pictures[0]!, "image/gif"), 415, "image/jpeg"],
      [await send("GET", `/photos/${"0".repeat(64)}`), 404, "there is no photograph"],
      [await send("GET", "/photos/..%2f..%2fetc"), 400, "64 hexadecimal digits"],
      // elsewhere a picture is no body
      [await send("PUT", "/enquiries/x", pictures[0]!, "image/jpeg"), 415, "image/jpeg"],
    ] as const;
    for (const [answer, status, words] of table) {
      expect(answer.statusCode, answer.body).toBe(status);
      expect(answer.json().error).toMatch(/^[^\n]+$/);
      expect(answer.json().error).toContain(words);
    }
    expect((await store.read((r) => r.photos())).length).toBe(before);
  });
});

describe("frame sheets", () => {
  it("come as pictures and papers at true size; a coupon that is not there is named", async () => {
    const svg = await send("GET", `/trials/${trial}/frames/1.svg`);
    expect(svg.body).toMatch(/width="[\d.]+mm"/);
    expect(svg.body).toContain("Measure this line from end to end");
    const pdf = await send("GET", `/trials/${trial}/frames/1.pdf`);
    expect(pdf.rawPayload.subarray(0, 5).toString()).toBe("%PDF-");
    expect((await send("GET", `/trials/${trial}/frames/7.svg`)).json().error).toContain("invalid coupon: 7");
    expect((await send("GET", "/trials/none/frames/1.pdf")).statusCode).toBe(404);
  });
});

describe("kept photographs of a trial", () => {
  const photos = pictures.map((bytes, turn) => ({ name: `turn-${turn}.jpg`, sha256: hashOf(bytes) }));
  let grading: GradingWire;
  let burned = 0;
  const put = (change: Partial<GradingWire>, version: number, coupon = 1, id = trial) =>
    send("PUT", `/trials/${id}/gradings/${coupon}`, { version, grading: { ...grading, ...change } });
  const changed = (patch: number, change: Partial<GradingWire["patches"][number]>) =>
    grading.patches.map((p) => (p.patch === patch ? { ...p, ...change } : p));
  const photographed = async () =>
    (await store.read((r) => r.outcomes(trial))).filter((o) => o.grader === "photographs");

  it("that do not fit are refused before any work", async () => {
    const table = [
      [{}, "photos"],
      [{ photos: [{ name: "a", sha256: "x" }] }, "sha256"],
      [{ photos, printScale: 2 }, "printScale"],
      [{ photos, greys: [1, 2] }, "greys"],
      [{ photos, greys: [90, 80, 70, 60, 50, 40, 30] }, "invalid"],
      [{ photos: [photos[0], photos[0]] }, "is given already"],
      [{ photos: [photos[0], { ...photos[0], name: "b" }] }, "is the same file as turn-0.jpg"],
    ] as const;
    for (const [body, words] of table) {
      const answer = await send("POST", `/trials/${trial}/grade`, body);
      expect(answer.statusCode, answer.body).toBe(400);
      expect(answer.json().error).toContain(words);
    }
    const away = await send("POST", `/trials/${trial}/grade`, { photos: [{ name: "a", sha256: "0".repeat(64) }] });
    expect([away.statusCode, away.json().error]).toEqual([400, "invalid photo: a (is not kept: send it first)"]);
    expect((await send("POST", "/trials/none/grade", { photos })).statusCode).toBe(404);
  }, 60_000);

  it("are read on a thread, with a picture laid flat, and what shows no coupon is named with its reasons", async () => {
    await sendPhoto(pictures[0]!);
    const heic = readFileSync(join(root, "tests/photos/samples/plain.heic"));
    const answer = await send("POST", `/trials/${trial}/grade`, {
      photos: [photos[0], { name: "blank.heic", sha256: hashOf(heic) }],
    });
    expect(answer.statusCode, answer.body).toBe(200);
    const { gradings, unread, refused } = answer.json();
    expect(refused).toEqual([]);
    expect(unread.map((u: { name: string }) => u.name)).toEqual(["blank.heic"]);
    expect(unread[0].gates[0].sentence).toMatch(/\.$/);
    expect(gradings).toHaveLength(1);
    grading = validatePublished("grading", gradings[0], "grading");
    expect(grading.photos.map((p) => [p.name, p.sha256, p.read])).toEqual([["turn-0.jpg", photos[0]!.sha256, true]]);
    expect(grading.cautions.length).toBeGreaterThan(3);
    const own = (await store.read((r) => r.latest("trial", trial)))!.record.patches.filter((p) => p.coupon === 1);
    expect(grading.patches.map((p) => [p.patch, p.role])).toEqual(own.map((p) => [p.patch, p.role]));
    burned = own.filter((p) => p.setting !== null && p.role !== "cleaned-reference").length;
    expect(grading.patches.filter((p) => p.outcome !== null)).toHaveLength(burned);
    expect(burned).toBeGreaterThan(10);
    const flat = await send("GET", `/photos/${grading.flat}`);
    expect(flat.headers["content-type"]).toBe("image/jpeg");
    expect((await send("GET", `/trials/${trial}/gradings`)).json()).toEqual({ gradings: [] });
    expect(await photographed()).toEqual([]);
  }, 120_000);

  it("are saved in versions as the readings and rulings say, their outcomes beside those of other graders", async () => {
    const first = await put({}, 0);
    expect(first.statusCode, first.body).toBe(200);
    expect(first.json().version).toBe(1);
    expect((await send("GET", `/trials/${trial}/gradings`)).json().gradings).toEqual([
      { version: 1, savedAt: first.json().savedAt, grading },
    ]);
    expect(await photographed()).toHaveLength(burned);
    const all = await store.read((r) => r.outcomes(trial));
    expect(all.length).toBeGreaterThan(burned);
    expect((await put({}, 0)).statusCode).toBe(409);
    expect((await store.read((r) => r.outcomeHistory(trial))).length).toBe(all.length);
  });

  it("are not saved where they belong elsewhere, or say what was neither read nor ruled", async () => {
    const one = grading.patches.find((p) => p.outcome !== null)!;
    const reference = grading.patches.find((p) => p.role === "untouched")!;
    const twice = [grading.patches[0]!, ...grading.patches.slice(0, -1)];
    const table = [
      [put({ trial: "brackets-pulsed" }, 1), "grading.trial"],
      [put({ coupon: 2 }, 1), "grading.coupon"],
      [put({}, 1, 9), "invalid coupon: 9"],
      [put({}, 1, 1, "brackets-pulsed"), "grading.trial"],
      [put({ patches: grading.patches.slice(1) }, 1), `coupon 1 has ${grading.patches.length}`],
      [put({ patches: twice }, 1), "stands there twice"],
      [put({ patches: changed(one.patch, { role: "untouched" }) }, 1), ".role"],
      [put({ patches: changed(one.patch, { patch: 999 }) }, 1), "is not on coupon 1"],
      [
        put({ patches: changed(one.patch, { outcome: { ...one.outcome!, residue_percent: 99 } }) }, 1),
        "as read or ruled",
      ],
      [
        put({ patches: changed(one.patch, { outcome: { ...one.outcome!, metalCondition: 4 } }) }, 1),
        "as read or ruled",
      ],
      [put({ patches: changed(one.patch, { outcome: { ...one.outcome!, grader: "Kim" } }) }, 1), "must be photographs"],
      [put({ patches: changed(one.patch, { outcome: { ...one.outcome!, patch: 1 } }) }, 1), ".outcome.patch"],
      [put({ patches: changed(reference.patch, { outcome: one.outcome }) }, 1), "is a reference"],
      [
        put({ patches: changed(one.patch, { reading: { ...one.reading, residue: null }, verdict: "clean" }) }, 1),
        "must be not settled",
      ],
      [put({ flat: "0".repeat(64) }, 1), "grading.flat"],
      [put({ photos: [{ ...grading.photos[0]!, sha256: "0".repeat(64) }] }, 1), "send the photograph first"],
    ] as const;
    for (const [asked, words] of table) {
      const answer = await asked;
      expect(answer.statusCode, words).toBe(400);
      expect(answer.json().error).toContain(words);
      expect(answer.json().error).toMatch(/^invalid [^\n]+$/);
    }
    expect((await put({}, 1, 1, "none")).statusCode).toBe(404);
    expect((await send("GET", "/trials/none/gradings")).statusCode).toBe(404);
  });

  it("teach the share of wrong readings once somebody has looked, and a ruling taken back leaves no trace in what counts", async () => {
    const one = grading.patches.find((p) => (p.outcome?.residue_percent ?? 100) < 3)!;
    expect(learntLapse([grading])).toEqual({});
    const ruling = { patch: one.patch, grader: "Kim", residue_percent: 40, metalCondition: null, note: "" };
    const patches = changed(one.patch, {
      ruling,
      verdict: "residue",
      outcome: { ...one.outcome!, residue_percent: 40 },
    });
    const rows = (await store.read((r) => r.outcomeHistory(trial))).length;
    expect((await put({ patches }, 1)).json().version).toBe(2);
    // one row for the one outcome that changed
    expect((await store.read((r) => r.outcomeHistory(trial))).length).toBe(rows + 1);
    // one looked at and wrong: (½ + 1) of (20 + 1)
    expect(learntLapse([{ ...grading, patches }]).lapse).toBeCloseTo(1.5 / 21, 12);
    const input = await store.read((r) => answerInput(r, "island-ferry-yard"));
    expect(input.lapse.lapse).toBeCloseTo(1.5 / 21, 12);
    expect(input.trials).toHaveLength(4);
    const [figure, ...none] = await gradedFigures(
      store,
      input.gradings,
      input.trials.map((t) => t.trial),
    );
    expect(none).toEqual([]);
    expect(figure).toMatchObject({ trialId: trial, read: 1, photographs: 1, looked: 1, overruled: 1 });
    expect(figure!.photo).toMatch(/^data:image\/jpeg;base64,\/9j\//);
    expect((await photographed()).find((o) => o.patch === one.patch)!.residue_percent).toBe(40);
    expect((await put({ patches: changed(one.patch, { read: null, outcome: null }) }, 2)).json().version).toBe(3);
    const gone = (await photographed()).find((o) => o.patch === one.patch)!;
    expect([gone.residue_percent, gone.metalCondition, gone.lightness]).toEqual([null, null, null]);
    expect((await put({}, 3)).json().version).toBe(4);
    expect((await photographed()).find((o) => o.patch === one.patch)).toEqual(one.outcome);
  });
});
