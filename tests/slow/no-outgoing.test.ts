import { spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtempSync, readdirSync, readFileSync, readlinkSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import sharp from "sharp";

const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));

/** Status of one request and its body. */
function ask(
  url: string,
  method = "GET",
  body?: unknown,
  type = "application/json",
): Promise<{ status: number; bytes: Buffer }> {
  const payload = body === undefined ? undefined : Buffer.isBuffer(body) ? body : Buffer.from(JSON.stringify(body));
  return new Promise((resolve, reject) => {
    const asked = request(
      url,
      {
        method,
        agent: false,
        headers: payload === undefined ? {} : { "content-type": type, "content-length": payload.length },
      },
      (answer) => {
        const parts: Buffer[] = [];
        answer.on("data", (part: Buffer) => parts.push(part));
        answer.on("end", () => resolve({ status: answer.statusCode ?? 0, bytes: Buffer.concat(parts) }));
      },
    );
    asked.on("error", reject);
    asked.end(payload);
  });
}

/** Far ends of the sockets that a process holds, as the kernel lists them: of its threads and of its native libraries too. */
function farEnds(pid: number): string[] {
  const own = new Set(
    readdirSync(`/proc/${pid}/fd`).flatMap((fd) => {
      try {
        return /^socket:\[(\d+)\]$/.exec(readlinkSync(`/proc/${pid}/fd/${fd}`))?.[1] ?? [];
      } catch {
        return [];
      }
    }),
  );
  return ["tcp", "tcp6", "udp", "udp6"].flatMap((kind) =>
    readFileSync(`/proc/${pid}/net/${kind}`, "utf8")
      .split("\n")
      .slice(1)
      .map((row) => row.trim().split(/\s+/))
      .filter((row) => own.has(row[9] ?? ""))
      .map((row) => row[2] ?? "")
      // Nobody (it listens), or 127.0.0.1.
      .filter((far) => !/^0+:0000$|^0100007F:/.test(far)),
  );
}

it("the server speaks to nobody of its own accord, whatever it is asked to do", async () => {
  const folder = mkdtempSync(join(tmpdir(), "no-outgoing-"));
  const log = join(folder, "log.txt");
  writeFileSync(log, "");
  const child = spawn(
    process.execPath,
    ["--import", here("./no-outgoing/spy.mjs"), "--import", "tsx", here("./server-kill/child.ts"), folder],
    { env: { ...process.env, OUTGOING_LOG: log }, stdio: ["pipe", "pipe", "inherit"] },
  );
  const far = new Set<string>();
  const looking = setInterval(() => {
    for (const end of farEnds(child.pid ?? 0)) far.add(end);
  }, 10);
  try {
    child.stdin.write("go\n");
    const url = String((await once(child.stdout, "data"))[0]).trim();
    // What happens while it starts is the program being loaded, told apart by what follows.
    const before = readFileSync(log, "utf8");
    const api = `${url}/api`;
    const good = async (path: string, method?: string, body?: unknown, type?: string) => {
      const { status, bytes } = await ask(`${api}${path}`, method, body, type);
      expect(status, `${path}: ${bytes.toString("latin1", 0, 300)}`).toBe(200);
      return bytes;
    };
    const json = async (...args: Parameters<typeof good>) => JSON.parse((await good(...args)).toString());
    const small = {
      id: "small",
      parts: [
        {
          id: "cover",
          material: "steel-low-carbon",
          area_m2: 1,
          layers: [{ kind: "alkyd", colour: "mid", thickness_um: 40 }],
        },
      ],
    };
    await good("/example", "POST", {});
    await good("/enquiries/small", "PUT", { version: 0, enquiry: small });
    for (const path of ["/health", "/enquiries", "/library", "/openapi.json", "/docs", "/archive?text=alkyd"])
      await good(path);
    const { id } = await json("/enquiries/small/answers", "POST", { draws: 8 });
    for (const path of [
      `/answers/${id}/details`,
      `/answers/${id}/report.html`,
      `/answers/${id}/report.pdf`,
      "/enquiries/small/papers/cover/offer",
      "/trials/brackets-pulsed/run-sheet.csv",
      "/trials/brackets-pulsed/run-sheet.pdf",
      "/trials/brackets-pulsed/coupons/1.svg",
      "/trials/brackets-pulsed/coupons/1.pdf",
      "/trials/brackets-pulsed/frames/1.pdf",
      "/trials/brackets-pulsed/archive.crate.zip",
    ])
      await good(path);
    const picture = await sharp({ create: { width: 900, height: 700, channels: 3, background: "#888" } })
      .jpeg()
      .toBuffer();
    const { sha256 } = await json("/photos", "PUT", picture, "image/jpeg");
    await good("/trials/brackets-pulsed/grade", "POST", { photos: [{ name: "a.jpg", sha256 }] });
    const after = readFileSync(log, "utf8").slice(before.length);
    expect(before).toContain("listening in");
    expect(after.split("\n").filter((row) => row !== "" && row !== "listening in")).toEqual([]);
    expect(before.split("\n").filter((row) => /dns|datagram|"port"|"host"/.test(row))).toEqual([]);
    expect([...far]).toEqual([]);
  } finally {
    clearInterval(looking);
    child.kill("SIGKILL");
    rmSync(folder, { recursive: true, force: true });
  }
}, 300_000);
