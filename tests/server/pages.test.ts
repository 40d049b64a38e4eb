import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { buildServer } from "#server";
import { openStore } from "#store";

const folder = mkdtempSync(join(tmpdir(), "pages-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("lets only the script that looks at photographs build code from text, and gives it nothing else", async () => {
  const webRoot = join(folder, "web");
  mkdirSync(join(webRoot, "assets"), { recursive: true });
  writeFileSync(join(webRoot, "index.html"), '<meta name="style-nonce" content="__STYLE_NONCE__" />');
  for (const name of ["photo-worker-A1_b-2.js", "index-A1.js"]) writeFileSync(join(webRoot, "assets", name), "0;");
  const store = openStore(join(folder, "test.db"));
  const app = await buildServer({ store, webRoot, examples: folder, now: () => "2026-11-25T10:00:00.000Z" });
  const policyOf = async (url: string): Promise<string> =>
    String((await app.inject({ url, headers: { host: "localhost:4173" } })).headers["content-security-policy"]);
  const worker = await policyOf("/assets/photo-worker-A1_b-2.js");
  expect(worker).toContain("'unsafe-eval'");
  expect(worker).toContain("default-src 'none'");
  for (const url of ["/", "/assets/index-A1.js", "/api/library", "/?/assets/photo-worker-A1_b-2.js"]) {
    const policy = await policyOf(url);
    expect(policy, url).toContain("default-src 'self'");
    expect(policy, url).not.toContain("'unsafe-eval'");
  }
  const page = await app.inject({ url: "/", headers: { host: "localhost:4173" } });
  expect(page.body).toMatch(/content="[0-9a-f]{32}"/);
  await app.close();
  await store.close();
});
