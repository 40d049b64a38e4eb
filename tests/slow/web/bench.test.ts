import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunEntryWire, TrialWire } from "#contract";
import { type Access, loadExample, loopbackOnly, type RunningServer, startServer } from "#server";
import { openStore, type Store } from "#store";

const root = new URL("../../..", import.meta.url).pathname;
const axe = createRequire(import.meta.url).resolve("axe-core");
const flags = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-sync"];
const picture = join(root, "examples/photos/hatch-covers.pulsed.coupon-1/turn-0.jpg");
const trial = "hatch-covers-pulsed";

let folder = "";
let store: Store;
let browser: Browser;
let order: number[] = [];

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "bench-"));
  store = openStore(join(folder, "app.db"));
  await loadExample(store, join(root, "examples"));
  const plan = (await store.read((r) => r.latest("trial", trial)))!.record;
  const run = plan.patches.filter((p) => p.setting !== null).sort((a, b) => a.runOrder - b.runOrder);
  order = run.map((p) => p.patch);
  browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: flags });
});
afterAll(async () => {
  await browser?.close();
  await store?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** A trial of its own for each test: the first eight patches, the third of them after a wait. */
async function putTrial(id: string): Promise<void> {
  const plan = (await store.read((r) => r.latest("trial", trial)))!.record;
  const patches = order.slice(0, 8).map((patch, i): TrialWire["patches"][number] => ({
    ...plan.patches.find((p) => p.patch === patch)!,
    wait_s: i === 2 ? 2 : 0,
    replicateOf: null,
  }));
  await store.write((tx) => tx.put("trial", { ...plan, id, patches }));
}

const serve = (port: number, webRoot = join(root, "dist/web"), access: Access = loopbackOnly): Promise<RunningServer> =>
  startServer({
    port,
    store,
    webRoot,
    access,
    examples: join(root, "examples"),
    now: () => new Date().toISOString(),
  });
const portOf = (server: RunningServer): number => Number(new URL(server.url).port);

const logOf = async (id: string): Promise<RunEntryWire[]> =>
  (await store.read((r) => r.latest("run-log", id)))?.record.entries ?? [];

interface Phone {
  readonly context: BrowserContext;
  readonly page: Page;
  /** console errors and page errors, less failed fetches while `away` is set */
  readonly troubles: string[];
  away: boolean;
}

function listen(phone: Phone, page: Page): void {
  page.on("console", (message) => {
    if (message.type() !== "error") return;
    const lost = /^Failed to load resource: net::ERR_(INTERNET_DISCONNECTED|CONNECTION_\w+|EMPTY_RESPONSE|FAILED)$/;
    if (phone.away && lost.test(message.text())) return;
    phone.troubles.push(message.text());
  });
  page.on("pageerror", (error) => phone.troubles.push(error.message));
}

async function newPhone(): Promise<Phone> {
  const context = await browser.newContext({
    viewport: { width: 390, height: 844 },
    colorScheme: "light",
    reducedMotion: "reduce",
    hasTouch: true,
  });
  await context.addInitScript({ path: axe });
  const page = await context.newPage();
  const phone: Phone = { context, page, troubles: [], away: false };
  listen(phone, page);
  return phone;
}

async function violations(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    type Found = { violations: { id: string; nodes: { html: string; failureSummary?: string }[] }[] };
    const found = await (globalThis as unknown as { axe: { run: () => Promise<Found> } }).axe.run();
    return found.violations.map(
      (v) => `${v.id}: ${v.nodes[0]?.html.slice(0, 160)} ${v.nodes[0]?.failureSummary ?? ""}`,
    );
  });
}

async function looksRight(page: Page): Promise<void> {
  for (const colorScheme of ["light", "dark"] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await violations(page), colorScheme).toEqual([]);
  }
  await page.emulateMedia({ colorScheme: "light" });
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(1);
  const small = await page
    .locator("main button:visible, main summary:visible, main input:not([type=file]):visible")
    .evaluateAll((all) => all.filter((e) => e.getBoundingClientRect().height < 43.5).map((e) => e.outerHTML));
  expect(small).toEqual([]);
}

const current = (page: Page) => page.locator(".run-row.current");
const ready = (page: Page) => page.getByText("keeps the list for when the network is lost: ready").waitFor();
const progress = (page: Page, text: string) => page.locator(".bench-progress b", { hasText: text }).waitFor();

/** Ticks the current patch, which is the `place`th, and waits until the next is at hand. */
async function burn(page: Page, place: number): Promise<void> {
  await current(page)
    .getByText(new RegExp(`^${place} of 8`))
    .waitFor();
  await page.waitForTimeout(800);
  await current(page).locator(".tick").click();
  await progress(page, `${place} of 8`);
}

describe("the run list on a phone", () => {
  it("keeps every tick through a lost network and a reload, and sends each exactly once", async () => {
    const id = "bench-offline";
    await putTrial(id);
    let server = await serve(0);
    const port = portOf(server);
    const phone = await newPhone();
    const { page, context } = phone;
    await page.goto(`${server.url}/#/bench/${id}`);
    await page.getByText("The laser safety officer decides").waitFor();
    await page.getByText("Fire: clear solvents").waitFor();
    await page.getByLabel("Your name").fill("Ines");
    await ready(page);
    await looksRight(page);
    // first all is set, then only what changes
    await current(page).getByText("Set all").waitFor();
    await burn(page, 1);
    await current(page).getByText("Change", { exact: true }).waitFor();
    await burn(page, 2);
    await current(page)
      .getByText(/^Wait [12] s more before the burn$/)
      .waitFor();
    await current(page).getByText("The wait is over.").waitFor();
    await looksRight(page);
    await page.getByText("Everything is noted on the server.").waitFor();
    expect((await logOf(id)).map((e) => [e.kind, e.patch, e.by])).toEqual(
      [order[0], order[1]].map((patch) => ["burned", patch, "Ines"]),
    );

    phone.away = true;
    await context.setOffline(true);
    await server.close();
    await burn(page, 3);
    await burn(page, 4);
    await page.waitForTimeout(800);
    await current(page).getByRole("button", { name: "Skip" }).click();
    await page.getByLabel("Why is it skipped?").fill("edge is bent");
    await page.getByRole("button", { name: "Skip this patch" }).click();
    await progress(page, "5 of 8");
    await current(page).locator("input[type=file]").setInputFiles(picture);
    await page.getByText(/^4 entries wait on this phone since .*: the server cannot be reached/).waitFor();

    await page.reload();
    await progress(page, "5 of 8");
    await page.getByText(/^4 entries wait on this phone since/).waitFor();
    await ready(page);
    expect(await page.locator(".run-row.burned").count()).toBe(4);
    await page.getByText("skipped").getByText("edge is bent").first().waitFor();
    expect(await page.getByLabel("Your name").inputValue()).toBe("Ines");
    await looksRight(page);

    // another page of the same browser has the same list, and each sees what the other ticks
    const second = await context.newPage();
    listen(phone, second);
    await second.goto(`http://127.0.0.1:${port}/#/bench/${id}`);
    await burn(second, 6);
    await progress(page, "6 of 8");

    server = await serve(port);
    await context.setOffline(false);
    await page.getByText("Everything is noted on the server.").waitFor({ timeout: 90_000 });
    phone.away = false;
    const log = await logOf(id);
    expect(log.map((e) => [e.kind, e.patch])).toEqual([
      ["burned", order[0]],
      ["burned", order[1]],
      ["burned", order[2]],
      ["burned", order[3]],
      ["skipped", order[4]],
      ["photo", order[5]],
      ["burned", order[5]],
    ]);
    expect(new Set(log.map((e) => e.id)).size).toBe(log.length);
    const photo = log.find((e) => e.kind === "photo")?.photo ?? "";
    expect(Buffer.from((await store.photo(photo))!).equals(readFileSync(picture))).toBe(true);

    // another phone sees them, ticks on, and takes back; the first one hears of it
    const other = await newPhone();
    await other.page.goto(`${server.url}/#/bench/${id}`);
    await burn(other.page, 7);
    await progress(page, "7 of 8");
    await other.page.locator(".bench-last").getByRole("button", { name: "Take back" }).click();
    await progress(other.page, "6 of 8");
    await progress(page, "6 of 8");
    expect((await logOf(id)).map((e) => e.kind).slice(-2)).toEqual(["burned", "undo-of"]);
    expect([...phone.troubles, ...other.troubles]).toEqual([]);
    await context.close();
    await other.context.close();
    await server.close();
  });

  it("shows what the server refuses until a person has seen to it", async () => {
    const id = "bench-refused";
    await putTrial(id);
    const server = await serve(0);
    const { page, context, troubles } = await newPhone();
    await page.goto(`${server.url}/#/bench/${id}`);
    await current(page)
      .locator("input[type=file]")
      .setInputFiles({ name: "no.jpg", mimeType: "image/jpeg", buffer: Buffer.from("no picture") });
    const refused = page.getByRole("alert").filter({ hasText: "Not taken by the server" });
    await refused.getByText("invalid photo").waitFor();
    await looksRight(page);
    await page.reload();
    await refused.getByText("invalid photo").waitFor();
    await refused.getByRole("button", { name: "Give up this entry" }).click();
    await refused.waitFor({ state: "detached" });
    expect(await logOf(id)).toEqual([]);
    expect(troubles.filter((t) => !/the server responded with a status of 400/.test(t))).toEqual([]);
    await context.close();
    await server.close();
  });
});

describe("the desk", () => {
  it("reads a photograph that was taken at the machine by one click, and asks for no patch that was skipped", async () => {
    await putTrial("bench-skip");
    const server = await serve(0);
    const phone = await newPhone();
    await phone.page.goto(`${server.url}/#/bench/${trial}`);
    const coupon = phone.page.locator("section", { hasText: "Photographs of whole coupons" });
    await coupon.locator("input[type=file]").first().setInputFiles(picture);
    await coupon.getByText("1 taken").waitFor();
    await phone.page.goto(`${server.url}/#/bench/bench-skip`);
    await phone.page.getByRole("button", { name: "Skip" }).click();
    await phone.page.getByLabel("Why is it skipped?").fill("scratched");
    await phone.page.keyboard.press("Enter");
    await progress(phone.page, "1 of 8");
    await phone.page.getByText("Everything is noted on the server.").waitFor();

    const desk = await newPhone();
    const { page } = desk;
    await page.setViewportSize({ width: 1440, height: 900 });
    await page.goto(`${server.url}/#/enquiry/island-ferry-yard/results?part=hatch-covers&trial=${trial}`);
    await page.getByRole("heading", { name: "Photographs taken at the machine" }).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole("button", { name: "Read it" }).click();
    await page.getByRole("button", { name: "Read it" }).waitFor({ state: "detached", timeout: 120_000 });
    await expect
      .poll(async () => (await store.read((r) => r.latest("grading", `${trial}.coupon-1`)))?.record.photos.length, {
        timeout: 120_000,
      })
      .toBe(1);

    await page.goto(`${server.url}/#/enquiry/island-ferry-yard/results?part=hatch-covers&trial=bench-skip`);
    await page.reload();
    await page.getByText(`Skipped at the machine, so not asked for: ${order[0]}`).waitFor();
    const rows = page.locator("table.entry tbody th");
    await expect.poll(() => rows.allInnerTexts()).toEqual(order.slice(1, 8).map(String));
    expect([...phone.troubles, ...desk.troubles]).toEqual([]);
    await phone.context.close();
    await desk.context.close();
    await server.close();
  });
});

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
    await putTrial(id);
    const old = join(root, "dist/web");
    const next = join(folder, "web-2");
    newVersion(old, next);
    const script = async (page: Page) => page.locator("script[type=module]").getAttribute("src");
    const first = await serve(0, old);
    const port = portOf(first);
    const phone = await newPhone();
    const { page, context } = phone;
    await page.goto(`${first.url}/#/bench/${id}`);
    await ready(page);
    const before = await script(page);
    await first.close();

    // The network is lost between the new page and its files: the old one opens, whole.
    const broken = join(folder, "web-broken");
    cpSync(next, broken, { recursive: true });
    for (const name of readdirSync(join(broken, "assets"))) rmSync(join(broken, "assets", name));
    const half = await serve(port, broken);
    phone.away = true;
    await page.reload();
    expect(await script(page)).not.toBe(before);
    await half.close();
    await page.reload();
    await ready(page);
    expect(await script(page)).toBe(before);
    const seen = phone.troubles.filter((t) => !/status of 404|Refused to apply style|Failed to load module/.test(t));
    expect(seen).toEqual([]);
    phone.troubles.length = 0;

    const second = await serve(port, next);
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
    await putTrial(id);
    const access = (word: string): Access => ({ hosts: [], word, tls: null });
    const first = await serve(0, undefined, access("aaaaa-aaaaa-aaaaa-aaaaa"));
    const port = portOf(first);
    const { page, context } = await newPhone();
    await page.goto(`${first.url}/#/bench/${id}`);
    await page.getByText("access word needed: open the link").waitFor();
    await page.goto(`${first.url}/enter?word=aaaaa-aaaaa-aaaaa-aaaaa#/bench/${id}`);
    await ready(page);
    await burn(page, 1);
    await page.getByText("Everything is noted on the server.").waitFor();
    await first.close();
    const second = await serve(port, undefined, access("bbbbb-bbbbb-bbbbb-bbbbb"));
    await burn(page, 2);
    await page.getByText(/^1 entry waits on this phone since .*: access word needed: open the link/).waitFor();
    await page.reload();
    await progress(page, "2 of 8");
    await page.goto(`${second.url}/enter?word=bbbbb-bbbbb-bbbbb-bbbbb#/bench/${id}`);
    await progress(page, "2 of 8");
    await page.getByText("Everything is noted on the server.").waitFor();
    expect((await logOf(id)).map((e) => e.patch)).toEqual([order[0], order[1]]);
    await context.close();
    await second.close();
  });
});
