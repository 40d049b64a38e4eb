import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { extname, join } from "node:path";
import { type Browser, chromium } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { locateFrame } from "#grading";
import { frameScene, render } from "../../grading/geometry/render.ts";
import { layout, look, openFinder } from "../../grading/geometry/setup-frame.ts";

const kinds: Readonly<Record<string, string>> = { ".html": "text/html", ".js": "text/javascript" };
let folder = "";
let server: Server;
let browser: Browser;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "markers-"));
  await build({
    configFile: false,
    root: new URL("markers", import.meta.url).pathname,
    base: "./",
    logLevel: "error",
    worker: { format: "es" },
    build: { outDir: folder, emptyOutDir: true, minify: false, chunkSizeWarningLimit: 20_000 },
  });
  server = createServer((request, response) => {
    const path = request.url === "/" ? "/index.html" : (request.url ?? "");
    try {
      const body = readFileSync(join(folder, path));
      response.writeHead(200, { "content-type": kinds[extname(path)] ?? "application/octet-stream" }).end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
});
afterAll(async () => {
  await browser?.close();
  server?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe("a frame located in a module worker of the browser", () => {
  it("comes out as in Node, corner for corner", async () => {
    const photo = render(look({ tilt: 15, towards: 40, radial: 0.01 }), frameScene(layout.markers));
    const { findMarkers } = await openFinder();
    const here = locateFrame(photo, layout, findMarkers);
    const page = await browser.newPage();
    const troubles: string[] = [];
    page.on("pageerror", (error) => troubles.push(error.message));
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
    const there = await page.evaluate(
      async ({ codes, size, layout }) => {
        const rgb = Uint8Array.from(atob(codes), (letter) => letter.charCodeAt(0));
        const { ask } = window as unknown as { ask(message: unknown): Promise<unknown> };
        return ask({ photo: { ...size, rgb, space: "srgb" }, layout });
      },
      {
        codes: Buffer.from(photo.rgb).toString("base64"),
        size: { width: photo.width, height: photo.height },
        layout,
      },
    );
    expect(troubles).toEqual([]);
    expect(here.gates).toEqual([]);
    const found = there as { gates: unknown[]; residual: number; corners: { u: number; v: number }[][] };
    expect(found.gates).toEqual([]);
    expect(found.residual).toBeCloseTo(here.view!.residual, 8);
    expect(found.corners.length).toBe(8);
    found.corners.forEach((corners, k) => {
      corners.forEach(({ u, v }, i) => {
        const at = here.view!.markers[k]!.corners[i]!;
        expect(Math.hypot(u - at.u, v - at.v)).toBeLessThan(1e-6);
      });
    });
  });
});
