import { createHash, randomUUID } from "node:crypto";
import { request } from "node:http";
import sharp from "sharp";
import { gradedCoupon, trial, wireOf } from "../../web/photographs/graded.ts";

/** Random numbers from 0 to 1 out of a seed (xorshift), so that a run can be done again. */
export function dice(seed: number): () => number {
  let x = seed | 1;
  return () => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    return (x >>> 0) / 2 ** 32;
  };
}

/** One thing that a client sent: what it was, where, and whether the server said 200. */
export interface Sent {
  readonly what: "enquiry" | "shop" | "grading" | "outcomes" | "photo" | "entry";
  readonly id: string;
  /** words that stand in the record, and in no other */
  readonly token: string;
  /** said by the server; null while it has said nothing */
  version: number | null;
  acknowledged: boolean;
}

/** JSON or bytes to one server; null where the connection breaks before the answer is whole. */
function send(
  url: string,
  method: string,
  body: unknown,
  type = "application/json",
): Promise<{ status: number; json: Record<string, unknown> } | null> {
  const payload = body === undefined ? undefined : Buffer.isBuffer(body) ? body : Buffer.from(JSON.stringify(body));
  return new Promise((resolve) => {
    const asked = request(
      url,
      { method, headers: payload === undefined ? {} : { "content-type": type, "content-length": payload.length } },
      (answer) => {
        const parts: Buffer[] = [];
        answer.on("data", (part: Buffer) => parts.push(part));
        answer.on("error", () => resolve(null));
        answer.on("close", () => {
          // Cut off in the middle: nothing was said.
          if (!answer.complete) resolve(null);
          else resolve({ status: answer.statusCode ?? 0, json: JSON.parse(Buffer.concat(parts).toString()) });
        });
      },
    );
    asked.on("error", () => resolve(null));
    asked.end(payload);
  });
}

/** One graded coupon, whose cautions a client changes. */
const coupon = wireOf(gradedCoupon());

export const enquiryIds = ["yard", "e1", "e2"] as const;

const enquiryOf = (id: string, token: string) => ({
  id,
  title: token,
  note: `${token} ${"and so on ".repeat(50)}${token}`,
  parts: [{ id: trial.partId, name: token }],
});

const pixels = (random: () => number): Promise<Buffer> =>
  sharp(Buffer.from(Array.from({ length: 80 * 80 * 3 }, () => Math.floor(256 * random()))), {
    raw: { width: 80, height: 80, channels: 3 },
  })
    .png()
    .toBuffer();

/** Several people at once on one server, until it is gone. Every one of them notes what it sent and what came back. */
export async function workUntilGone(
  base: string,
  random: () => number,
  log: Sent[],
  photos: Map<string, Buffer>,
  answered: (what: Sent["what"]) => void,
): Promise<void> {
  const api = `${base}/api`;
  const token = (): string => `t-${Math.floor(random() * 2 ** 32).toString(36)}-${log.length}`;

  const versioned = async (
    what: Sent["what"],
    id: string,
    path: string,
    read: (json: Record<string, unknown>) => number,
    body: (token: string, version: number) => unknown,
  ): Promise<void> => {
    const now = await send(`${api}${path}`, "GET", undefined);
    if (now === null) return;
    let version = now.status === 404 ? 0 : read(now.json);
    for (;;) {
      const one: Sent = { what, id, token: token(), version: null, acknowledged: false };
      log.push(one);
      const said = await send(`${api}${path}`, "PUT", body(one.token, version));
      if (said === null) return;
      if (said.status !== 200) throw new Error(`${what} ${id}: ${said.status} ${JSON.stringify(said.json)}`);
      version = Number(said.json.version);
      one.version = version;
      one.acknowledged = true;
      answered(one.what);
    }
  };

  const enquiries = enquiryIds.map((id) =>
    versioned(
      "enquiry",
      id,
      `/enquiries/${id}`,
      (json) => Number(json.version),
      (words, version) => ({ version, enquiry: enquiryOf(id, words) }),
    ),
  );
  const shop = versioned(
    "shop",
    "yard",
    "/enquiries/yard/shop",
    (json) => Number(json.version),
    (words, version) => ({ version, shop: { note: words, labour_per_h: 50 } }),
  );

  const grading = async (): Promise<void> => {
    const kept = await send(`${api}/trials/${trial.id}/gradings`, "GET", undefined);
    if (kept === null) return;
    let version = (kept.json.gradings as { version: number }[])[0]?.version ?? 0;
    for (;;) {
      const one: Sent = {
        what: "grading",
        id: `${trial.id}.coupon-1`,
        token: token(),
        version: null,
        acknowledged: false,
      };
      log.push(one);
      const graded = { ...coupon, photos: [], flat: null, cautions: [one.token] };
      const said = await send(`${api}/trials/${trial.id}/gradings/1`, "PUT", { version, grading: graded });
      if (said === null) return;
      if (said.status !== 200) throw new Error(`grading: ${said.status} ${JSON.stringify(said.json)}`);
      version = Number(said.json.version);
      one.version = version;
      one.acknowledged = true;
      answered(one.what);
    }
  };

  /** Sends new things one after another. */
  const adding = async (what: Sent["what"], put: (words: string) => ReturnType<typeof send>): Promise<void> => {
    for (;;) {
      const one: Sent = {
        what,
        id: trial.id,
        token: what === "entry" ? randomUUID() : token(),
        version: null,
        acknowledged: false,
      };
      log.push(one);
      const said = await put(one.token);
      if (said === null) return;
      if (said.status !== 200) throw new Error(`${what}: ${said.status} ${JSON.stringify(said.json)}`);
      one.acknowledged = true;
      answered(one.what);
    }
  };
  const outcomes = adding("outcomes", (grader) =>
    send(`${api}/trials/${trial.id}/outcomes`, "PUT", {
      outcomes: [2, 3].map((patch) => ({ trial: trial.id, patch, residue_percent: 1, grader })),
    }),
  );
  const entries = adding("entry", (id) =>
    send(`${api}/trials/${trial.id}/run-log`, "POST", {
      entries: [{ id, kind: "note", at: "2026-03-31T14:05:00.000Z", note: id }],
    }),
  );
  const uploads = async (): Promise<void> => {
    for (;;) {
      const bytes = await pixels(random);
      const sum = createHash("sha256").update(bytes).digest("hex");
      photos.set(sum, bytes);
      const one: Sent = { what: "photo", id: sum, token: sum, version: null, acknowledged: false };
      log.push(one);
      const said = await send(`${api}/photos`, "PUT", bytes, "image/png");
      if (said === null) return;
      if (said.status !== 200 || said.json.sha256 !== sum)
        throw new Error(`photo: ${said.status} ${JSON.stringify(said.json)}`);
      one.acknowledged = true;
      answered(one.what);
    }
  };
  await Promise.all([...enquiries, shop, grading(), outcomes, entries, uploads()]);
}
