import { readFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { gradingToWire, type GradingWire, parseEnquiry, parseTrial } from "#contract";
import { couponPlans, lookAtPhoto } from "#grading";
import { createLibrary } from "#library";
import { openMarkerFinder } from "#markers";
import { decodePhoto, markerLibrary } from "#photos";
import { gradeTrial } from "#workflows";
import { App, example, violations } from "./browser.ts";
import { nextInDirection } from "../../../src/web/photographs/next-patch.ts";
import { readResidueText } from "../../../src/web/photographs/reading-text.ts";

const root = new URL("../../..", import.meta.url).pathname;
const examples = join(root, "examples");
const names = [0, 1, 2, 3].map((turn) => `turn-${turn}.jpg`);
const pathOf = (name: string): string => join(examples, "photos/hatch-covers.pulsed.coupon-1", name);
/** ms, longest task of the page while photographs are read and ruled on. */
const LONGEST = 100;
const results = "#/enquiry/island-ferry-yard/results?part=hatch-covers&trial=hatch-covers-pulsed";

let app: App;
beforeAll(async () => {
  app = await App.start({
    fill: async (store) => {
      await example(store);
      // The same plan once more, for photographs that are read anew.
      await store.write(async (tx) => {
        const { record } = (await tx.latest("trial", "hatch-covers-pulsed"))!;
        await tx.put("trial", { ...record, id: "hatch-covers-again" });
      });
    },
  });
});
afterAll(async () => {
  await app?.stop();
});

/** A page that notes its long tasks. */
const open = (scheme: "light" | "dark", width: number) => app.open(scheme, width, noteLongTasks);

const noteLongTasks = (context: BrowserContext): Promise<unknown> =>
  context.addInitScript(() => {
    const tasks: number[] = [];
    Object.assign(globalThis, { longTasks: tasks });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) tasks.push(Math.round(entry.duration));
    }).observe({ type: "longtask" });
  });

const longTasks = (page: Page): Promise<number[]> =>
  page.evaluate(() => (globalThis as unknown as { longTasks: number[] }).longTasks.splice(0));

interface PhotoBytes {
  readonly name: string;
  readonly bytes: Buffer;
}

const trial = parseTrial(JSON.parse(readFileSync(join(examples, "hatch-covers.pulsed.trial.json"), "utf8")));

/** Photographs of the trial read by Node, with its own decoder. */
async function readHere(photos: readonly PhotoBytes[]): Promise<GradingWire> {
  const enquiry = parseEnquiry(JSON.parse(readFileSync(join(examples, "enquiry.json"), "utf8")), createLibrary([]));
  const part = enquiry.parts.find((p) => p.id === trial.partId)!;
  const plans = couponPlans(trial);
  const finder = await openMarkerFinder(markerLibrary());
  const looks = [];
  for (const { name, bytes } of photos) {
    const { photo } = await decodePhoto(new Uint8Array(bytes));
    looks.push(lookAtPhoto(name, photo, plans, finder.findMarkers));
  }
  finder.close();
  const [graded] = gradeTrial(trial, part, plans, looks);
  return gradingToWire(graded!, { enquiryId: enquiry.id, printScale: 1, cautions: [], sha256: () => "0".repeat(64) });
}

/** The patch from which the right arrow leads to this one. */
const leftOf = (patch: number): number | undefined => {
  const own = trial.patches.filter((p) => p.coupon === 1);
  return own.find((p) => nextInDirection(own, p.patch, "ArrowRight") === patch)?.patch;
};

const kept = async (trial = "hatch-covers-pulsed"): Promise<GradingWire> =>
  (await app.store.read((r) => r.latest("grading", `${trial}.coupon-1`)))!.record;

/** Readings of two decoders agree: same verdicts, residues within 0.01. */
function expectAlike(there: GradingWire, here: GradingWire): void {
  expect(there.patches.map((p) => [p.patch, p.verdict])).toEqual(here.patches.map((p) => [p.patch, p.verdict]));
  there.patches.forEach(({ patch, reading }, k) => {
    const residue = here.patches[k]!.reading.residue!;
    expect(Math.abs(reading.residue!.value_percent - residue.value_percent), `patch ${patch}`).toBeLessThan(1);
  });
}

describe("photographs on the results page", () => {
  it("are read in the browser as in Node, looked at by clicks and keys, and stay when the page is opened again", async () => {
    const { page, troubles } = await open("light", 1440);
    await page.goto(`${app.url}/${results}`);
    await page.getByRole("heading", { name: "Photographs", exact: true }).waitFor();
    await page.waitForTimeout(1500);
    await longTasks(page);
    await page.getByLabel("Choose files").first().setInputFiles(names.map(pathOf));
    await page.getByText(/Reading photograph 2 of 4: turn-1.jpg/).waitFor({ timeout: 120_000 });
    await page.getByText(/Version 1, saved/).waitFor({ timeout: 240_000 });
    expect(await page.getByText("4 photographs, 4 read").count()).toBe(1);

    const there = await kept();
    const here = await readHere(names.map((name) => ({ name, bytes: readFileSync(pathOf(name)) })));
    expectAlike(there, here);
    expect(new Set(there.patches.map((p) => p.verdict)).size).toBeGreaterThan(1);
    expect(there.photos.map((p) => p.name)).toEqual(names);
    expect(Buffer.from((await app.store.photo(there.photos[2]!.sha256))!).equals(readFileSync(pathOf(names[2]!)))).toBe(
      true,
    );

    // by keys in the picture: from the patch to its left, and open it
    const dirty = there.patches.find((p) => p.verdict === "residue" && leftOf(p.patch) !== undefined)!;
    const { patch } = dirty;
    await page.locator(`.patch-mark[data-patch='${leftOf(patch)}']`).focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Enter");
    const card = page.getByRole("region", { name: `Patch ${patch}`, exact: true });
    await card.getByRole("heading", { name: `Patch ${patch}: residue` }).waitFor();
    await card.getByRole("img", { name: "Cleaned reference" }).waitFor({ timeout: 60_000 });
    expect(await card.getByText("would not show").count()).toBe(1);

    // nobody rules without a name
    await card.getByLabel("Residue %").fill("3,5");
    await card.getByRole("button", { name: "Overrule" }).click();
    await card.getByText("Say who looks first.").waitFor();
    await card.getByLabel("Your name").fill("Kim");
    await card.getByLabel("Note").fill("overspray at the rim");
    await card.getByRole("button", { name: "Overrule" }).click();
    await page.getByText(/Version 2, saved/).waitFor();
    await page.getByText("1 reading was looked at, 1 on the wrong side").waitFor();

    // all that are plain, in one step, and back
    await page.getByRole("button", { name: /^Accept all \d+ not flagged/ }).click();
    await page.getByText(/Version 3, saved/).waitFor();
    const accepted = (await kept()).patches.filter((p) => p.ruling !== null).length;
    expect(accepted).toBeGreaterThan(5);
    await page.getByRole("button", { name: "Undo the last step" }).click();
    await page.getByText(/Version 4, saved/).waitFor();
    expect((await kept()).patches.filter((p) => p.ruling !== null).map((p) => p.patch)).toEqual([patch]);
    // the page's own thread stayed free while all that went on
    expect(Math.max(0, ...(await longTasks(page)))).toBeLessThan(LONGEST);

    await page.reload();
    const row = page.locator("table.readings tbody tr", { hasText: "by Kim" });
    await row.waitFor();
    expect(await row.textContent()).toContain(`clean3.5 % by Kim (photograph: ${readResidueText(dirty)})`);
    expect(await page.locator("image").first().getAttribute("href")).toMatch(/^\/api\/photos\/[0-9a-f]{64}$/);
    await page.getByRole("button", { name: `Open the reading of patch ${patch}`, exact: true }).click();
    await page.getByText("Kim overruled this reading").waitFor();
    await page.getByText("overspray at the rim").waitFor();
    expect(await page.getByLabel("Your name").inputValue()).toBe("Kim");
    expect((await kept()).patches.find((p) => p.patch === patch)!.outcome!.residue_percent).toBe(3.5);
    const outcomes = (await app.store.read((r) => r.outcomes("hatch-covers-pulsed"))).filter((o) => o.patch === patch);
    expect(outcomes.find((o) => o.grader === "photographs")!.residue_percent).toBe(3.5);
    expect(outcomes.length).toBeGreaterThan(1);
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  it.each([
    ["light", 1440],
    ["dark", 1440],
    ["light", 390],
    ["dark", 390],
  ] as const)("stand without barriers, cautions in sight (%s, %i px)", async (scheme, width) => {
    const { page, troubles } = await open(scheme, width);
    await page.goto(`${app.url}/${results}`);
    await page
      .getByRole("button", { name: /^Open the reading of patch/ })
      .first()
      .click();
    await page.getByRole("img", { name: "Cleaned reference" }).waitFor({ timeout: 60_000 });
    await page.getByText("The frame sheet as printed").click();
    await page.getByLabel("Ruler, as measured (mm)").fill("20");
    await page.getByText("must be within a tenth of").waitFor();
    expect(await violations(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(1);
    const cautions = page.locator("aside").getByText("Class 4 laser", { exact: false });
    expect(await cautions.count()).toBeGreaterThan(0);
    expect(await page.locator("main").textContent()).not.toMatch(/NaN|undefined|Infinity/);
    await page.goto(`${app.url}/#/enquiry/island-ferry-yard/trial?part=hatch-covers`);
    await page
      .getByRole("link", { name: /^Frame sheet .*, PDF$/ })
      .first()
      .waitFor();
    expect(await violations(page)).toEqual([]);
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  it("that this browser cannot open, or that are none, are read or refused by the server in a sentence", async () => {
    const { page, troubles } = await open("light", 1440);
    await page.goto(`${app.url}/#/enquiry/island-ferry-yard/results?part=brackets&trial=brackets-pulsed`);
    await page.getByRole("heading", { name: "Photographs", exact: true }).waitFor();
    // files are taken once the part is known
    await page.locator("button:enabled", { hasText: "Choose files" }).first().waitFor();
    await page
      .getByLabel("Choose files")
      .first()
      .setInputFiles([
        { name: "note.jpg", mimeType: "image/jpeg", buffer: Buffer.from("not a picture") },
        {
          name: "plain.heic",
          mimeType: "image/heic",
          buffer: readFileSync(join(root, "tests/photos/samples/plain.heic")),
        },
      ]);
    await page.getByText(/^note\.jpg: invalid photo: another kind of file/).waitFor({ timeout: 60_000 });
    await page.getByText(/^plain\.heic: .*marker/).waitFor({ timeout: 120_000 });
    expect(await page.getByText(/kept and not read yet/).count()).toBe(0);
    // a refused body is no trouble of the page's
    expect(troubles.filter((t) => !t.includes("400"))).toEqual([]);
    await page.context().close();
  });

  it("in other colours and turned by their files are read as in Node; reading can be stopped and taken up again", async () => {
    const wide = await sharp(pathOf(names[0]!)).withIccProfile("p3").jpeg({ quality: 95 }).toBuffer();
    const turned = await sharp(pathOf(names[1]!)).rotate(90).withMetadata({ orientation: 8 }).png().toBuffer();
    const photos = [
      { name: "wide.jpg", bytes: wide },
      { name: "turned.png", bytes: turned },
    ];
    const { page, troubles } = await open("light", 1440);
    await page.goto(`${app.url}/#/enquiry/island-ferry-yard/results?part=hatch-covers&trial=hatch-covers-again`);
    await page
      .getByLabel("Choose files")
      .first()
      .setInputFiles(photos.map(({ name, bytes }) => ({ name, mimeType: "image/jpeg", buffer: bytes })));
    await page.getByText(/Reading photograph 1 of 2/).waitFor({ timeout: 120_000 });
    await page.getByRole("button", { name: "Cancel" }).click();
    await page.getByText("Stopped. What was sent is kept.").waitFor();
    await page.reload();
    await page.getByText("2 photographs kept and not read yet.").waitFor();
    await page.getByRole("button", { name: "Read now" }).click();
    await page.getByText(/Version 1, saved/).waitFor({ timeout: 240_000 });
    const there = await kept("hatch-covers-again");
    expect(there.photos.map((p) => [p.name, p.read])).toEqual(photos.map((p) => [p.name, true]));
    expectAlike(there, await readHere(photos));
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  it("are said beforehand to settle nothing on an oily part, with what does; its cautions stay when the part changes", async () => {
    const oily = {
      id: "oily",
      title: "Oily",
      parts: [
        { id: "first", material: "steel-low-carbon", area_m2: 1, layers: [{ kind: "oil-film", thickness_um: 2 }] },
        { id: "second", material: "steel-low-carbon", area_m2: 1, layers: [{ kind: "oil-film", thickness_um: 3 }] },
      ],
    };
    const sent = await fetch(`${app.url}/api/enquiries/oily`, {
      method: "PUT",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ version: 0, enquiry: oily }),
    });
    expect(sent.status, await sent.text()).toBe(200);
    const { page, troubles } = await open("light", 1440);
    await page.goto(`${app.url}/#/enquiry/oily/trial?part=first`);
    const main = page.locator("main");
    await main.getByText("Photographs cannot settle the residue here.").waitFor();
    expect(await main.getByText("water-break test", { exact: false }).count()).toBeGreaterThan(0);
    expect(await violations(page)).toEqual([]);
    const eyewear = page.locator("aside").getByText("eyewear rated for", { exact: false });
    await eyewear.waitFor();
    await page.getByText("second", { exact: true }).click();
    await page.waitForURL(/part=second/);
    await page.waitForTimeout(1000);
    expect(await eyewear.count()).toBe(1);
    expect(troubles).toEqual([]);
    await page.context().close();
  });
});
