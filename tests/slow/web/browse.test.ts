import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { EnquiryLine } from "../../../src/web/api/enquiries.ts";
import { foundLines } from "../../../src/web/enquiries/found-lines.ts";
import { App, violations } from "./browser.ts";
import { fillMany, usualMany } from "./many-trials.ts";
import { record } from "./record.ts";

/**
 * ms; 95 of 100 actions are to be answered within 200 on a machine that is left alone. That figure is recorded; here the
 * test fails only where reading everything has come back, which took seconds, whatever else the machine does.
 */
const WITHIN = 1000;

let lines: readonly EnquiryLine[] = [];
let app: App;
beforeAll(async () => {
  app = await App.start({ fill: fillMany });
  lines = ((await (await fetch(`${app.url}/api/enquiries`)).json()) as { enquiries: EnquiryLine[] }).enquiries;
});
afterAll(async () => {
  await app?.stop();
});

interface Action {
  readonly does: { readonly go: string } | { readonly type: string; readonly into: string };
  /** what the page shows when the action is answered: a text per selector, and how many of one */
  readonly shows: Readonly<Record<string, string>>;
  readonly atLeast?: readonly [selector: string, count: number];
}

/** ms from the action until the frame that shows its answer has been drawn, by the page's own clock. */
function timed(page: Page, action: Action): Promise<number> {
  return page.evaluate(
    ({ does, shows, atLeast, most }) =>
      new Promise<number>((resolve, reject) => {
        const started = performance.now();
        if ("go" in does) location.hash = does.go;
        else {
          const field = document.querySelector<HTMLInputElement>(does.into);
          if (field === null) return reject(new Error(`no field ${does.into}`));
          Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value")?.set?.call(field, does.type);
          field.dispatchEvent(new Event("input", { bubbles: true }));
        }
        const shown = () =>
          Object.entries(shows).every(([selector, text]) =>
            [...document.querySelectorAll(selector)].some((e) => (e.textContent ?? "").includes(text)),
          ) &&
          (atLeast === undefined || document.querySelectorAll(atLeast[0]).length >= atLeast[1]);
        const look = () => {
          // The frame after the one in which it first stands there has it on the screen.
          if (shown()) requestAnimationFrame(() => resolve(performance.now() - started));
          else if (performance.now() - started > most)
            reject(
              new Error(
                `not shown: ${JSON.stringify(shows)} but ${document.querySelector("main")?.textContent?.slice(0, 400)}`,
              ),
            );
          else requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
      }),
    { ...action, most: 20_000 },
  );
}

const prefixes = (text: string): string[] => [...text].map((_, i) => text.slice(0, i + 1));
const countOf = (search: string): string => {
  const found = foundLines(lines, search).length;
  return found === lines.length ? `${found} enquiries` : `${found} of ${lines.length} enquiries`;
};
const listSearch = 'input[aria-label^="Search"]';
const archiveSearch = '.archive input[type="search"]';

const questions: readonly (readonly [text: string, understood: string])[] = [
  ["white polyurethane on 5083", "white polyurethane top coat on Aluminium 5083"],
  ["rust on steel", "red rust"],
  ["powder coat on steel", "powder coat"],
  ["mill scale", "mill scale"],
  ["heat tint on stainless", "heat tint"],
  ["rubber on 6061", "rubber residue"],
  ["oil film on copper", "oil film"],
  ["paint with pulsed-100", "coating"],
];

describe("500 trials with 50,000 patches", () => {
  it("are browsed without waiting", async () => {
    const { page, troubles } = await app.open("light", 1440);
    const took: { readonly what: string; readonly ms: number }[] = [];
    const act = async (what: string, action: Action) => {
      took.push({ what, ms: await timed(page, action) });
    };
    // A person looks around first; meanwhile the pages read ahead, the newest trials last.
    const ahead = page.waitForResponse((response) => response.url().includes("/api/archive"));
    await page.goto(`${app.url}/#/library`);
    await page.waitForSelector("h1");
    await ahead;
    await page.waitForLoadState("networkidle");
    const list: Action = {
      does: { go: "#/enquiries" },
      shows: { "[role=status]": `${lines.length} enquiries` },
      atLeast: [".card-link", 30],
    };
    const archive: Action = {
      does: { go: "#/archive" },
      shows: { "[role=status]": `${usualMany.trials} trials kept` },
      atLeast: [".hit", 20],
    };
    for (let i = 0; i < 5; i += 1) {
      await act("open the list", list);
      await act("open the archive", archive);
    }
    await act("open the list", list);
    for (const search of [...prefixes("tram depot"), ...prefixes("continuous 5083")])
      await act(`search the list: ${search}`, {
        does: { type: search, into: listSearch },
        shows: { "[role=status]": countOf(search) },
      });
    await act("open the archive", archive);
    for (const [text, understood] of questions)
      await act(`ask: ${text}`, {
        does: { type: text, into: archiveSearch },
        shows: { ".question + p": understood, "[role=status]": "are like it" },
        atLeast: [".hit", 20],
      });
    for (let i = 0; i < 8; i += 1) {
      const { id, enquiry } = lines[7 * i]!;
      await act(`ask for a part of ${id}`, {
        does: { go: `#/archive?enquiry=${id}&part=part-1&laser=pulsed-100` },
        shows: { ".question strong": `${enquiry.parts[0]!.name} of ${enquiry.title}` },
        atLeast: [".hit", 20],
      });
    }
    const trials = (await app.store.read((r) => r.trialLines())).filter((_, i) => i % 50 === 3);
    for (const trial of trials) {
      await act(`open ${trial.id}`, {
        does: { go: `#/enquiry/${trial.enquiry}/results?part=${trial.part}&trial=${trial.id}` },
        shows: { "main h1": "Results", option: trial.id },
        // The coupon coloured by its outcomes is what the first screen shows; the rows to type in stand below it.
        atLeast: ["main .picture svg rect", usualMany.patches],
      });
      await page.waitForFunction(
        (n) => document.querySelectorAll("main table tbody tr").length >= n,
        usualMany.patches,
      );
      await act("back to the archive", {
        does: { go: "#/archive?text=rust" },
        shows: { ".question + p": "red rust" },
        atLeast: [".hit", 20],
      });
    }
    expect(troubles).toEqual([]);
    expect(took.length).toBeGreaterThanOrEqual(40);
    const sorted = took.map((t) => t.ms).sort((a, b) => a - b);
    const p95 = sorted[Math.ceil(0.95 * sorted.length) - 1]!;
    const slowest = [...took].sort((a, b) => b.ms - a.ms).slice(0, 8);
    console.log(
      `${took.length} actions, p95 ${Math.round(p95)} ms, median ${Math.round(sorted[sorted.length >> 1]!)} ms`,
    );
    console.log(slowest.map((t) => `${Math.round(t.ms)} ms ${t.what}`).join("\n"));
    record({ browse_p95_ms: Math.round(p95) });
    expect(p95).toBeLessThanOrEqual(WITHIN);
  });

  it.each([
    ["light", 1440],
    ["dark", 1440],
    ["light", 390],
    ["dark", 390],
  ] as const)("%s at %i px: axe finds nothing, nothing runs off, nothing is logged", async (scheme, width) => {
    const { page, troubles } = await app.open(scheme, width);
    const found: string[] = [];
    const look = async (where: string) => {
      for (const fault of await violations(page)) found.push(`${where}: ${fault}`);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      if (over > 0) found.push(`${where}: ${over} px too wide`);
    };
    await page.goto(`${app.url}/#/enquiries`);
    await page.waitForSelector(".card-link");
    await look("list");
    await page.goto(`${app.url}/#/archive`);
    await page.waitForSelector(".hit");
    await look("newest");
    await page.getByLabel("What is known of").fill("white polyurethane on 5083");
    await page.getByText("Understood as: white polyurethane top coat").waitFor();
    await page.getByRole("button", { name: "Start from this" }).first().click();
    await look("start from");
    await page.getByLabel("What is known of").fill("quu");
    await page.getByText("That names nothing that the library knows").waitFor();
    await look("unread");
    expect(found).toEqual([]);
    expect(troubles).toEqual([]);
  });
});

describe("from a kept trial", () => {
  it("begin a new enquiry with its part, by keyboard, and take its setting with a way back", async () => {
    const { page, troubles } = await app.open("light", 1440);
    await page.goto(`${app.url}/#/archive?text=rust+on+steel`);
    await page.waitForSelector(".hit");
    await page.getByLabel("What is known of").focus();
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    const second = page.locator(".hit").nth(1);
    expect(await second.locator("h2 a").evaluate((a) => a === document.activeElement)).toBe(true);
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Results", level: 1 }).waitFor();
    expect(page.url()).toMatch(/results\?part=part-\d&trial=trial-\d+/);

    await page.goBack();
    const taking = page.locator(".hit", { has: page.locator(".setting-text") }).first();
    await taking.getByRole("button", { name: "Start from this" }).click();
    expect(await taking.getByText("A setting of another job is a place to begin a trial, no more.").count()).toBe(2);
    await taking.getByRole("combobox", { name: "Enquiry" }).fill("job-7)");
    await page.getByRole("option", { name: /\(job-7\)/ }).click();
    await taking.getByRole("button", { name: "Take the setting" }).click();
    const stored = () => page.evaluate(() => localStorage.getItem("scourlight.setting.job-7.part-1"));
    expect(JSON.parse((await stored()) ?? "null")?.setting.power).toBeGreaterThan(0);
    await taking.getByRole("button", { name: "Put the former setting back" }).click();
    expect(JSON.parse((await stored()) ?? "null")).toBeNull();

    await taking.getByRole("button", { name: "Make the enquiry" }).click();
    await page.getByRole("heading", { name: "Part and layers" }).waitFor();
    expect(await page.getByLabel("Title").inputValue()).toMatch(/, as in /);
    const made = (await app.store.read((r) => r.list("enquiry")))[0]!.record;
    expect([made.parts.length, made.parts[0]!.lead, made.invented]).toEqual([1, "unknown", true]);
    expect(await app.store.read((r) => r.list("trial", made.id))).toEqual([]);
    expect(troubles).toEqual([]);
  });

  it("can be stopped while it is looked for, and what was found before stays", async () => {
    const { page, troubles } = await app.open("light", 1440);
    await page.goto(`${app.url}/#/archive?text=mill+scale`);
    await page.getByText("Understood as: mill scale").waitFor();
    const slow = "**/api/archive?*";
    await page.route(slow, (route) => setTimeout(() => void route.continue().catch(() => undefined), 3000));
    await page.getByLabel("What is known of").fill("rust");
    await page.getByRole("button", { name: "Cancel" }).click();
    await page.getByText("The search was cancelled").waitFor();
    expect(await page.locator(".hit").count()).toBeGreaterThan(0);
    await page.unroute(slow);
    await page.getByRole("button", { name: "Search again" }).click();
    await page.getByText("Understood as: red rust").waitFor();
    expect(await page.getByText("The search was cancelled").count()).toBe(0);
    expect(troubles).toEqual([]);
  });
});
