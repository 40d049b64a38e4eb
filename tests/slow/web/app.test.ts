import { mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { loadExample, type RunningServer, startServer } from "#server";
import { openStore, type Store } from "#store";
import { record } from "./record.ts";

const root = new URL("../../..", import.meta.url).pathname;
const axe = createRequire(import.meta.url).resolve("axe-core");
const flags = [
  "--no-sandbox",
  "--disable-gpu",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];
const steps = ["part", "lasers", "setting", "trial", "results", "window", "report"] as const;

let folder = "";
let store: Store;
let server: RunningServer;
let browser: Browser;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "app-"));
  store = openStore(join(folder, "app.db"));
  await loadExample(store, join(root, "examples"));
  server = await startServer({
    port: 0,
    store,
    webRoot: join(root, "dist/web"),
    examples: join(root, "examples"),
    now: () => "2026-11-25T10:00:00.000Z",
    draws: 8,
  });
  browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: flags });
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
  await store?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function open(scheme: "light" | "dark", width: number): Promise<{ page: Page; troubles: string[] }> {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    colorScheme: scheme,
    reducedMotion: "reduce",
  });
  const page = await context.newPage();
  const troubles: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") troubles.push(message.text());
  });
  page.on("pageerror", (error) => troubles.push(error.message));
  return { page, troubles };
}

async function violations(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    const found = await (
      globalThis as unknown as {
        axe: {
          run: () => Promise<{ violations: { id: string; nodes: { html: string; failureSummary?: string }[] }[] }>;
        };
      }
    ).axe.run();
    return found.violations.map((v) => `${v.id}: ${v.nodes[0].html.slice(0, 160)} ${v.nodes[0].failureSummary ?? ""}`);
  });
}

describe("the pages", () => {
  it.each([
    ["light", 1440],
    ["dark", 1440],
    ["light", 390],
    ["dark", 390],
  ] as const)("open without errors and without barriers (%s, %i px)", async (scheme, width) => {
    const { page, troubles } = await open(scheme, width);
    // axe is put into the page from outside; the page's own policy would refuse it.
    await page.context().addInitScript({ path: axe });
    await page.goto(server.url);
    await page.getByRole("heading", { name: "Enquiries" }).waitFor();
    expect(await violations(page)).toEqual([]);
    for (const step of steps) {
      await page.goto(`${server.url}/#/enquiry/island-ferry-yard/${step}`);
      await page.getByRole("heading", { level: 1 }).waitFor();
      await page.waitForTimeout(700);
      expect(await violations(page), step).toEqual([]);
      expect(
        await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
        `${step} does not scroll sideways`,
      ).toBeLessThanOrEqual(1);
    }
    expect(troubles).toEqual([]);
    await page.context().close();
  });
});

/** What a window has to show once it is fitted, on a wide page and on a phone. */
async function windowIsWhole(page: Page): Promise<void> {
  for (const name of ["May the trial end?", "Recommended setting", "What the patches pin down", "Checks of the fit"])
    expect(await page.getByRole("heading", { name }).count(), name).toBe(1);
  const pinned = page.locator("section", { has: page.getByRole("heading", { name: "What the patches pin down" }) });
  const rows = await pinned.locator("tbody tr").allTextContents();
  expect(rows).toHaveLength(3);
  for (const row of rows.slice(0, 2)) expect(row).toMatch(/J\/cm² \([\d.]+ to [\d.]+\).*J\/cm² \([\d.]+ to [\d.]+\)/);
  expect(await page.locator("pattern#window-map-kept").count()).toBe(1);
  expect(await page.locator("svg text").getByText("kept by 95 of 100").count()).toBe(1);
  expect(await page.getByText("Every chance is an average over the drift of production").count()).toBe(1);
  expect(await page.locator("main").textContent()).not.toMatch(/NaN|undefined|Infinity/);
  expect(await violations(page)).toEqual([]);
  await page.setViewportSize({ width: 390, height: 900 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(1);
  await page.setViewportSize({ width: 1440, height: 900 });
}

describe("the job by clicks", () => {
  it("plans a trial by the physics without being asked to, with its progress, off the page's own thread", async () => {
    const { page, troubles } = await open("light", 1440);
    await page.goto(`${server.url}/#/enquiry/island-ferry-yard/trial?part=brackets`);
    const design = page.getByLabel("Design");
    await design.waitFor();
    expect(await design.inputValue()).toBe("physics-guided");
    expect(await design.locator("option").count()).toBe(10);
    await page.getByRole("button", { name: "Plan patches" }).click();
    await page.getByText(/Choosing patches \d+ %/).waitFor({ timeout: 300_000 });
    // the page answers while the physics is worked out
    const asked = Date.now();
    await design.focus();
    expect(Date.now() - asked).toBeLessThan(1000);
    await page.getByRole("button", { name: "Keep this plan" }).waitFor({ timeout: 300_000 });
    await page.getByText("The settings that teach most by the physics, in that order").first().waitFor();
    await page
      .getByText(/^Rehearsed 12 times/)
      .first()
      .waitFor();
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  it("goes from the example to a downloaded report", async () => {
    const { page, troubles } = await open("light", 1440);
    await page.context().addInitScript({ path: axe });
    const started = Date.now();
    await page.goto(server.url);
    await page
      .getByRole("link", { name: /Hatch covers and brackets/ })
      .first()
      .click();
    await page.waitForURL(/island-ferry-yard/);
    await page.getByRole("heading", { level: 1 }).waitFor();
    const usable = Date.now() - started;

    await page.goto(`${server.url}/#/enquiry/island-ferry-yard/setting`);
    await page.getByText("64 draws").waitFor({ timeout: 60_000 });
    const slider = page.getByRole("slider", { name: "Speed" });
    await slider.focus();
    const times: number[] = [];
    for (let i = 0; i < 12; i++) {
      const before = Date.now();
      await slider.press("ArrowLeft");
      await page.getByText("first answer, being refined").waitFor();
      times.push(Date.now() - before);
      await page.getByText("64 draws").waitFor();
    }

    await page.goto(`${server.url}/#/enquiry/island-ferry-yard/window?part=hatch-covers&trial=hatch-covers-pulsed`);
    await page.getByRole("button", { name: "Fit the window" }).click();
    await page.getByRole("heading", { name: "Burn next" }).waitFor({ timeout: 300_000 });
    await windowIsWhole(page);

    await page.goto(`${server.url}/#/enquiry/island-ferry-yard/report`);
    await page.getByRole("button", { name: "Write the report" }).click();
    const link = page.getByRole("link", { name: "Download PDF" });
    await link.waitFor({ timeout: 450_000 });
    const [download] = await Promise.all([page.waitForEvent("download"), link.click()]);
    expect(download.suggestedFilename()).toMatch(/\.pdf$/);
    expect(troubles).toEqual([]);
    record({
      usable_ms: usable,
      live_p95_ms: times.sort((a, b) => a - b)[Math.floor(0.95 * (times.length - 1))]!,
    });
    await page.context().close();
  });

  it("keeps what is typed: an outcome survives a reload", async () => {
    const { page } = await open("light", 1440);
    await page.goto(`${server.url}/#/enquiry/island-ferry-yard/results?part=brackets&trial=brackets-pulsed`);
    const cell = page.locator("table.entry tbody tr").first().locator("input").nth(1);
    await cell.waitFor();
    await cell.fill("47.5");
    await page.getByRole("heading", { name: "Results" }).click();
    await page.locator("table.entry tbody tr").nth(1).locator("input").nth(1).focus();
    await page.getByText("All rows saved").waitFor();
    await page.reload();
    await cell.waitFor();
    expect(await cell.inputValue()).toBe("47.5");
    await page.context().close();
  });
});
