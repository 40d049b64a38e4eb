import { cpSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Access } from "#server";
import {
  burn,
  logOf,
  newPhone,
  openWorkshop,
  portOf,
  progress,
  putTrial,
  ready,
  root,
  serve,
  type Workshop,
} from "./bench-phone.ts";

let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

/** The same pages under other names, as after a change of every file. */
function newVersion(from: string, to: string): void {
  cpSync(from, to, { recursive: true });
  const assets = join(to, "assets");
  const names = readdirSync(assets).filter((name) => /\.(js|css)$/.test(name) && !name.startsWith("photo-worker"));
  const renamed = (name: string): string => name.replace(/\.(js|css)$/, "v2.$1");
  const change = (text: string): string => names.reduce((all, name) => all.replaceAll(name, renamed(name)), text);
  for (const name of names) {
    writeFileSync(join(assets, renamed(name)), change(readFileSync(join(assets, name), "utf8")));
    rmSync(join(assets, name));
  }
  writeFileSync(join(to, "index.html"), change(readFileSync(join(to, "index.html"), "utf8")));
}

describe("the page that a phone keeps", () => {
  it("is replaced by a new version as a whole or not at all", async () => {
    const id = "bench-version";
    await putTrial(shop, id);
    const old = join(root, "dist/web");
    const next = join(shop.folder, "web-2");
    newVersion(old, next);
    const script = async (page: Page) => page.locator("script[type=module]").getAttribute("src");
    const first = await serve(shop, 0, old);
    const port = portOf(first);
    const phone = await newPhone(shop);
    const { page, context } = phone;
    await page.goto(`${first.url}/#/bench/${id}`);
    await ready(page);
    const before = await script(page);
    phone.away = true;
    await first.close();

    // The network is lost between the new page and its files: the old one opens, whole.
    const broken = join(shop.folder, "web-broken");
    cpSync(next, broken, { recursive: true });
    for (const name of readdirSync(join(broken, "assets"))) rmSync(join(broken, "assets", name));
    const half = await serve(shop, port, broken);
    await page.reload();
    expect(await script(page)).not.toBe(before);
    await half.close();
    await page.reload();
    await ready(page);
    expect(await script(page)).toBe(before);
    const seen = phone.troubles.filter((t) => !/status of 404|Refused to apply style|Failed to load module/.test(t));
    expect(seen).toEqual([]);
    phone.troubles.length = 0;

    const second = await serve(shop, port, next);
    await page.reload();
    await ready(page);
    const after = await script(page);
    expect(after).toMatch(/v2\.js$/);
    await burn(page, 1);
    await second.close();
    await page.reload();
    await progress(page, "1 of 8");
    await ready(page);
    expect(await script(page)).toBe(after);
    expect(phone.troubles).toEqual([]);
    await context.close();
  });

  it("opens without the word of a new start, says so, and sends once the new link was opened", async () => {
    const id = "bench-word";
    await putTrial(shop, id);
    const access = (word: string): Access => ({ hosts: [], word, tls: null });
    const first = await serve(shop, 0, undefined, access("aaaaa-aaaaa-aaaaa-aaaaa"));
    const port = portOf(first);
    const { page, context } = await newPhone(shop);
    await page.goto(`${first.url}/#/bench/${id}`);
    await page.getByText("access word needed: open the link").waitFor();
    await page.goto(`${first.url}/enter?word=aaaaa-aaaaa-aaaaa-aaaaa#/bench/${id}`);
    await ready(page);
    await burn(page, 1);
    await page.getByText("Everything is noted on the server.").waitFor();
    await first.close();
    const second = await serve(shop, port, undefined, access("bbbbb-bbbbb-bbbbb-bbbbb"));
    await burn(page, 2);
    await page.getByText(/^1 entry waits on this phone since .*: access word needed: open the link/).waitFor();
    await page.reload();
    await progress(page, "2 of 8");
    await page.goto(`${second.url}/enter?word=bbbbb-bbbbb-bbbbb-bbbbb#/bench/${id}`);
    await progress(page, "2 of 8");
    await page.getByText("Everything is noted on the server.").waitFor();
    expect((await logOf(shop, id)).map((e) => e.patch)).toEqual([shop.order[0], shop.order[1]]);
    await context.close();
    await second.close();
  });
});
