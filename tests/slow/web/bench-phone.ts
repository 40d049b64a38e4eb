import { mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { expect } from "vitest";
import type { RunEntryWire, TrialWire } from "#contract";
import { type Access, loadExample, loopbackOnly, type RunningServer, startServer } from "#server";
import { openStore, type Store } from "#store";

export const root = new URL("../../..", import.meta.url).pathname;
export const trial = "hatch-covers-pulsed";
const axe = createRequire(import.meta.url).resolve("axe-core");
const flags = ["--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-sync"];

/** A store with the example, a browser, and servers over them as a test starts and ends them. */
export interface Workshop {
  readonly folder: string;
  readonly store: Store;
  readonly browser: Browser;
  /** patches of the example's trial in the order to burn them */
  readonly order: readonly number[];
  close(): Promise<void>;
}

export async function openWorkshop(): Promise<Workshop> {
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  const store = openStore(join(folder, "app.db"));
  await loadExample(store, join(root, "examples"));
  const plan = (await store.read((r) => r.latest("trial", trial)))!.record;
  const run = plan.patches.filter((p) => p.setting !== null).sort((a, b) => a.runOrder - b.runOrder);
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: flags });
  return {
    folder,
    store,
    browser,
    order: run.map((p) => p.patch),
    close: async () => {
      await browser.close();
      await store.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** A trial of its own for each test: the first eight patches, the third of them after a wait. */
export async function putTrial({ store, order }: Workshop, id: string): Promise<void> {
  const plan = (await store.read((r) => r.latest("trial", trial)))!.record;
  const patches = order.slice(0, 8).map((patch, i): TrialWire["patches"][number] => ({
    ...plan.patches.find((p) => p.patch === patch)!,
    wait_s: i === 2 ? 2 : 0,
    replicateOf: null,
  }));
  await store.write((tx) => tx.put("trial", { ...plan, id, patches }));
}

export const serve = (
  { store }: Workshop,
  port: number,
  webRoot = join(root, "dist/web"),
  access: Access = loopbackOnly,
): Promise<RunningServer> =>
  startServer({ port, store, webRoot, access, examples: join(root, "examples"), now: () => new Date().toISOString() });

export const portOf = (server: RunningServer): number => Number(new URL(server.url).port);

export const logOf = async ({ store }: Workshop, id: string): Promise<RunEntryWire[]> =>
  (await store.read((r) => r.latest("run-log", id)))?.record.entries ?? [];

export interface Phone {
  readonly context: BrowserContext;
  readonly page: Page;
  /** console errors and page errors, less failed fetches while `away` is set */
  readonly troubles: string[];
  away: boolean;
}

export function listen(phone: Phone, page: Page): void {
  page.on("console", (message) => {
    if (message.type() !== "error") return;
    const lost = /^Failed to load resource: net::ERR_(INTERNET_DISCONNECTED|CONNECTION_\w+|EMPTY_RESPONSE|FAILED)$/;
    if (phone.away && lost.test(message.text())) return;
    phone.troubles.push(message.text());
  });
  page.on("pageerror", (error) => phone.troubles.push(error.message));
}

export async function newPhone({ browser }: Workshop): Promise<Phone> {
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

export async function violations(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    type Found = { violations: { id: string; nodes: { html: string; failureSummary?: string }[] }[] };
    const found = await (globalThis as unknown as { axe: { run: () => Promise<Found> } }).axe.run();
    return found.violations.map(
      (v) => `${v.id}: ${v.nodes[0]?.html.slice(0, 160)} ${v.nodes[0]?.failureSummary ?? ""}`,
    );
  });
}

export async function looksRight(page: Page): Promise<void> {
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

export const current = (page: Page) => page.locator(".run-row.current");
export const ready = (page: Page) => page.getByText("keeps the list for when the network is lost: ready").waitFor();
export const progress = (page: Page, text: string) => page.locator(".bench-progress b", { hasText: text }).waitFor();

/** Ticks the current patch, which is the `place`th, and waits until the next is at hand. */
export async function burn(page: Page, place: number): Promise<void> {
  await current(page)
    .getByText(new RegExp(`^${place} of 8`))
    .waitFor();
  await page.waitForTimeout(800);
  await current(page).locator(".tick").click();
  await progress(page, `${place} of 8`);
}
