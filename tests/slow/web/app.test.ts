import type { Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { App, overhang, violations } from "./browser.ts";
import { record } from "./record.ts";

const enquiry = "#/enquiry/island-ferry-yard";
/** Every page there is, as a link. */
const pages = [
  "#/enquiries",
  ...["part", "lasers", "setting", "trial", "results", "window", "comparison", "economy", "report"].map(
    (step) => `${enquiry}/${step}`,
  ),
  "#/library",
  "#/library/metals/aluminium-5083",
  "#/archive",
  "#/archive?text=paint%20on%20aluminium",
  "#/bench/hatch-covers-pulsed",
];

let app: App;
beforeAll(async () => {
  app = await App.start();
});
afterAll(async () => {
  await app?.stop();
});

let found = 0;

describe("the pages", () => {
  it.each([
    ["light", 1440],
    ["dark", 1440],
    ["light", 390],
    ["dark", 390],
  ] as const)("open without errors and without barriers (%s, %i px)", async (scheme, width) => {
    const { page, troubles } = await app.open(scheme, width);
    for (const hash of pages) {
      await page.goto(`${app.url}/${hash}`);
      await page.getByRole("heading", { level: 1 }).waitFor();
      await page.waitForTimeout(700);
      const barriers = await violations(page);
      found += barriers.length;
      record({ axe_violations: found });
      expect(barriers, hash).toEqual([]);
      expect(await overhang(page), `${hash} does not scroll sideways`).toBeLessThanOrEqual(1);
      expect(await page.locator("body").textContent(), hash).not.toMatch(/NaN|undefined|Infinity/);
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
  expect(await overhang(page)).toBeLessThanOrEqual(1);
  await page.setViewportSize({ width: 1440, height: 900 });
}

const stepLink = (page: Page, name: string): Locator =>
  page.getByRole("navigation").getByRole("link", { name: new RegExp(`^${name}`) });

/** A trial of which only the first coupon was burned, with the outcomes that the example has for it. */
async function halfTried({ store }: App): Promise<void> {
  await store.write(async (t) => {
    const whole = await t.latest("trial", "hatch-covers-pulsed");
    if (whole === null) throw new Error("the example has no such trial");
    const { record: trial } = whole;
    const first = trial.coupons.slice(0, 1);
    const patches = trial.patches.filter((p) => p.coupon === first[0]?.coupon);
    await t.put("trial", { ...trial, id: "half-tried", coupons: first, patches });
    const burned = new Set(patches.map((p) => p.patch));
    const outcomes = (await t.outcomes("hatch-covers-pulsed")).filter((o) => burned.has(o.patch));
    await t.addOutcomes(
      "half-tried",
      outcomes.map((o) => ({ ...o, trial: "half-tried" })),
    );
  });
}

describe("the job by clicks", () => {
  it("plans a trial by the physics without being asked to, with its progress, off the page's own thread", async () => {
    const { page, troubles } = await app.open("light", 1440);
    await page.goto(`${app.url}/#/enquiry/island-ferry-yard/trial?part=brackets`);
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

  it("goes from the example to a downloaded report, by clicks alone", async () => {
    const { page, troubles } = await app.open("light", 1440);
    await page.goto(app.url);
    await page
      .getByRole("link", { name: /Hatch covers and brackets/ })
      .first()
      .click();
    await page.getByRole("heading", { level: 1 }).waitFor();
    const step = async (name: string, heading: string | RegExp = name) => {
      await stepLink(page, name).click();
      await page.getByRole("heading", { level: 1, name: heading }).waitFor();
    };

    await step("Part", "Part and layers");
    await step("Lasers");
    await page.getByRole("button", { name: "Compare all set-ups" }).click();
    await page.locator(".stack .tag", { hasText: /./ }).first().waitFor({ timeout: 300_000 });

    await step("Setting");
    await page.getByText("64 draws").first().waitFor({ timeout: 60_000 });

    await step("Trial");
    await page
      .getByRole("heading", { name: /hatch-covers-pulsed/ })
      .first()
      .waitFor();

    await step("Results");
    await page.locator("table.entry tbody tr").first().waitFor();

    await step("Window");
    await page.getByRole("button", { name: "Fit the window" }).click();
    await page.getByRole("heading", { name: "Burn next" }).waitFor({ timeout: 300_000 });
    await windowIsWhole(page);

    await step("Comparison");
    await step("Safety and cost");
    await step("Answer");
    await page.getByRole("button", { name: "Write the report" }).click();
    const link = page.getByRole("link", { name: "Download PDF" }).first();
    await link.waitFor({ timeout: 450_000 });
    const [download] = await Promise.all([page.waitForEvent("download"), link.click()]);
    expect(download.suggestedFilename()).toMatch(/\.pdf$/);
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  it("lays the next patches out on further coupons of a trial that is not settled", async () => {
    await halfTried(app);
    const { page, troubles } = await app.open("light", 1440);
    await page.goto(`${app.url}/${enquiry}/window?part=hatch-covers&trial=half-tried`);
    await page.getByRole("button", { name: "Fit the window" }).click();
    await page.getByRole("button", { name: "Lay these out on further coupons" }).click({ timeout: 300_000 });
    await page.getByRole("heading", { name: "The trial with its next coupons" }).waitFor({ timeout: 300_000 });
    await page.getByRole("button", { name: "Keep the next coupons" }).click();
    await page.getByRole("heading", { level: 1, name: "Trial" }).waitFor();
    const [before, after] = await app.store.read(async (r) => [
      await r.version("trial", "half-tried", 1),
      await r.latest("trial", "half-tried"),
    ]);
    expect(after?.version).toBe(2);
    expect(after?.record.coupons.length).toBeGreaterThan(1);
    expect(after?.record.patches.slice(0, before?.record.patches.length)).toEqual(before?.record.patches);
    expect((await app.store.read((r) => r.outcomes("half-tried"))).length).toBeGreaterThan(10);
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  it("keeps what is typed: an outcome survives a reload", async () => {
    const { page } = await app.open("light", 1440);
    await page.goto(`${app.url}/#/enquiry/island-ferry-yard/results?part=brackets&trial=brackets-pulsed`);
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
