import { type IncomingMessage, request } from "node:http";
import { InvalidInput } from "#units";

/** How a running server is reached. */
export interface Door {
  readonly address: string;
  readonly word: string | null;
}

export interface Ask {
  readonly json?: unknown;
  readonly bytes?: Uint8Array;
  /** media type of `bytes` */
  readonly type?: string;
  /** ms to wait at most; work that takes minutes has no limit */
  readonly wait?: number;
}

export interface Answered {
  readonly bytes: Buffer;
  readonly headers: Readonly<Record<string, string | readonly string[] | undefined>>;
}

/** A refusal in the server's own words. */
export class RefusedByServer extends InvalidInput {
  readonly status: number;
  constructor(status: number, line: string) {
    super("request", status, "", line);
    this.status = status;
    this.message = line;
  }
}

const most = 300;

/** s after which to ask again; null where asking again is of no use. */
function waitOf(answer: IncomingMessage): number | null {
  const wanted = Number(answer.headers["retry-after"]);
  return answer.statusCode === 429 && wanted >= 0 && wanted <= 120 ? wanted : null;
}

/** One request; the bytes of the answer. A server that is asked too often says when to come again. Throws RefusedByServer for what the server refuses, Error where it is gone. */
export function fetchBytes(door: Door, method: string, path: string, ask: Ask = {}): Promise<Answered> {
  const payload = ask.bytes ?? (ask.json === undefined ? undefined : Buffer.from(JSON.stringify(ask.json)));
  const headers = {
    ...(payload === undefined
      ? {}
      : { "content-type": ask.type ?? "application/json", "content-length": payload.length }),
    ...(door.word === null ? {} : { cookie: `scourlight-access=${door.word}` }),
  };
  return new Promise((resolve, reject) => {
    const gone = (error: Error) => reject(new Error(`the server at ${door.address} went away: ${error.message}`));
    const sent = request(`${door.address}/api${path}`, { method, headers, agent: false }, (answer) => {
      const parts: Buffer[] = [];
      answer.on("data", (part: Buffer) => parts.push(part));
      answer.on("error", gone);
      answer.on("end", () => {
        const bytes = Buffer.concat(parts);
        const status = answer.statusCode ?? 0;
        const wait = waitOf(answer);
        if (wait !== null) setTimeout(() => resolve(fetchBytes(door, method, path, ask)), 1000 * wait);
        else if (status < 300) resolve({ bytes, headers: answer.headers });
        else reject(new RefusedByServer(status, lineOf(bytes) ?? `the server answered ${status}`));
      });
    });
    sent.on("error", gone);
    if (ask.wait !== undefined) sent.setTimeout(ask.wait, () => sent.destroy(new Error("no answer in time")));
    sent.end(payload);
  });
}

function lineOf(bytes: Buffer): string | null {
  try {
    const { error } = JSON.parse(bytes.toString()) as { error?: unknown };
    return typeof error === "string" ? error.slice(0, most) : null;
  } catch {
    return null;
  }
}

/** One request for JSON. The shape is the one that the description of the API tells. */
export async function askServer<T = unknown>(door: Door, method: string, path: string, ask: Ask = {}): Promise<T> {
  return JSON.parse((await fetchBytes(door, method, path, ask)).bytes.toString()) as T;
}

/** The answer, or null where the server has no such record. */
export async function askIfThere<T>(door: Door, path: string): Promise<T | null> {
  return askServer<T>(door, "GET", path).catch((error: unknown) => {
    if (error instanceof RefusedByServer && error.status === 404) return null;
    throw error;
  });
}

/** An id as it stands in an address. */
export const at = (id: string): string => encodeURIComponent(id);
