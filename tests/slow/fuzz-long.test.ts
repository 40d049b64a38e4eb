import { connect } from "node:net";
import fc from "fast-check";
import { afterAll, beforeAll, expect, it } from "vitest";
import { type Bench, faultOf, openBench, rowsOf, shots } from "../server/fuzz/run.ts";

let bench: Bench;
beforeAll(async () => {
  bench = await openBench();
});
afterAll(() => bench.close());

const SHOTS = 100_000;

it("refuses whatever comes, for minutes: never a fault, never half a write", async () => {
  const faults: string[] = [];
  for (let seed = 1; seed <= SHOTS / 1000; seed++)
    for (const shot of fc.sample(shots(bench.targets), { numRuns: 1000, seed })) {
      const fault = await faultOf(bench, shot);
      if (fault !== null) faults.push(`seed ${seed}: ${fault}`);
    }
  expect(faults.slice(0, 20)).toEqual([]);
  expect((await bench.app.inject({ url: "/api/health", headers: { host: "localhost" } })).statusCode).toBe(200);
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
});

/** What a socket gives back for raw bytes, until it is closed or still for a while. */
function raw(port: number, bytes: Buffer): Promise<string> {
  return new Promise((resolve) => {
    let said = "";
    const socket = connect(port, "127.0.0.1", () => socket.end(bytes));
    socket.setTimeout(3000, () => socket.destroy());
    socket.on("data", (data) => {
      said += data.toString("latin1");
    });
    socket.on("error", () => resolve(said));
    socket.on("close", () => resolve(said));
  });
}

it("takes raw bytes over the wire: broken heads, odd addresses, two requests in one", async () => {
  const url = await bench.app.listen({ port: 0, host: "127.0.0.1" });
  const port = Number(new URL(url).port);
  const before = await rowsOf(bench.store);
  const head = "Host: localhost\r\nConnection: close\r\n";
  const requests = [
    "GARBAGE\r\n\r\n",
    "\u0000\u0001\u0002",
    `GET /api/../../../etc/passwd HTTP/1.1\r\n${head}\r\n`,
    `GET //etc/passwd HTTP/1.1\r\n${head}\r\n`,
    `GET /api/enquiries/..%5c..%5cx HTTP/1.1\r\n${head}\r\n`,
    `GET /api/photos/%2e%2e%2f%2e%2e%2fetc HTTP/1.1\r\n${head}\r\n`,
    `GET http://example.org/api/enquiries HTTP/1.1\r\n${head}\r\n`,
    "GET /api/enquiries HTTP/1.1\r\nConnection: close\r\n\r\n",
    "GET /api/enquiries HTTP/1.1\r\nHost: example.org\r\nConnection: close\r\n\r\n",
    "GET /api/enquiries HTTP/1.1\r\nHost: localhost\r\nHost: example.org\r\nConnection: close\r\n\r\n",
    `PUT /api/enquiries/x HTTP/1.1\r\n${head}Content-Type: application/json\r\nContent-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n`,
    `PUT /api/enquiries/x HTTP/1.1\r\n${head}Content-Type: application/json\r\nContent-Length: -1\r\n\r\n{}`,
    `PUT /api/enquiries/x HTTP/1.1\r\n${head}Content-Type: application/json\r\nContent-Length: 50\r\n\r\n{}`,
    `PUT /api/enquiries/x HTTP/1.1\r\n${head}Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\nZZ\r\n{}\r\n0\r\n\r\n`,
    `GET /api/enquiries HTTP/1.1\r\n${head}X: ${"y".repeat(100_000)}\r\n\r\n`,
    `GET /${"z".repeat(100_000)} HTTP/1.1\r\n${head}\r\n`,
    `TRACE /api/enquiries HTTP/1.1\r\n${head}\r\n`,
    `CONNECT example.org:443 HTTP/1.1\r\n${head}\r\n`,
    `GET /api/enquiries HTTP/9.9\r\n${head}\r\n`,
    `GET /api/health HTTP/1.1\r\nHost: localhost\r\nUpgrade: websocket\r\nConnection: Upgrade\r\n\r\n`,
  ];
  const noise = fc.sample(fc.uint8Array({ minLength: 1, maxLength: 400 }), { numRuns: 300, seed: 5 });
  for (const bytes of [...requests.map((r) => Buffer.from(r, "latin1")), ...noise.map((n) => Buffer.from(n))]) {
    const said = await raw(port, bytes);
    expect(said, bytes.toString("latin1").slice(0, 80)).not.toMatch(/^HTTP\/1\.1 5/);
    expect(said).not.toMatch(/root:|node_modules|\bat \w+ \(/);
    if (/^HTTP\/1\.1 4/.test(said)) expect(said).toMatch(/\r\n\r\n\{"error":"[^"\n]+"\}/);
  }
  expect(await raw(port, Buffer.from(`GET /api/health HTTP/1.1\r\n${head}\r\n`))).toMatch(/^HTTP\/1\.1 200/);
  expect(await rowsOf(bench.store)).toBe(before);
});
