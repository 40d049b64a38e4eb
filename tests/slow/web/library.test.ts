import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { App, violations } from "./browser.ts";

let app: App;
beforeAll(async () => {
  app = await App.start({ draws: 4 });
});
afterAll(async () => {
  await app?.stop();
});

const fingers = [
  ".lib-input",
  ".lib-line",
  ".lib-tick",
  ".library button",
  ".library a.mantine-Button-root",
  "summary",
];

/** Smallest height of what a finger has to meet, px. */
const smallestTarget = (page: Page) =>
  page.evaluate(
    (targets) => Math.min(...[...document.querySelectorAll(targets)].map((e) => e.getBoundingClientRect().height)),
    fingers.join(", "),
  );

describe("the library", () => {
  it.each([
    ["light", 1440],
    ["dark", 1440],
    ["light", 390],
    ["dark", 390],
  ] as const)("opens without errors and without barriers (%s, %i px)", async (scheme, width) => {
    const { page, troubles } = await app.open(scheme, width);
    for (const place of [
      "metals",
      "metals/steel-low-carbon",
      "layers/alkyd",
      "setups/pulsed-100",
      "metals/steel-low-carbon?do=copy",
      "layers/alkyd?do=copy",
      "setups/continuous-1000?do=copy",
      "metals/nothing-such",
    ]) {
      await page.goto(`${app.url}/#/library/${place}`);
      await page.getByRole("heading", { level: 1 }).waitFor();
      await page.waitForTimeout(400);
      expect(await violations(page), place).toEqual([]);
      const beyond = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect(beyond, `${place} does not scroll sideways`).toBeLessThanOrEqual(1);
      expect(await page.locator("main").textContent(), place).not.toMatch(/NaN|undefined|Infinity|\[object/);
      if (width === 390) expect(await smallestTarget(page), place).toBeGreaterThanOrEqual(44);
    }
    expect(troubles).toEqual([]);
    await page.context().close();
  });
});

async function keepMetal(page: Page): Promise<void> {
  await page.goto(`${app.url}/#/library/metals`);
  await page.getByText("No entries of your own yet").waitFor();
  await page.getByRole("link", { name: /^Low-carbon steel/ }).click();
  await page.getByRole("link", { name: "Copy and change" }).click();
  await page.getByLabel("Name", { exact: true }).fill("Bridge steel 1962");
  await page.getByLabel("Density, value, kg/m³").fill("9000");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  // Both things that are wrong are said at their fields, and the list leads to them.
  const alert = page.getByRole("alert");
  await alert.getByText("Density: Must lie from low to high.").click();
  const density = page.getByLabel("Density, value, kg/m³");
  expect(await density.evaluate((field) => field === document.activeElement)).toBe(true);
  expect(await density.getAttribute("aria-invalid")).toBe("true");
  expect(await violations(page)).toEqual([]);
  await density.fill("7845");
  await page.getByLabel("Source", { exact: true }).fill("Certificate 4711, works laboratory, 2026-03-02");
  await page.getByRole("heading", { level: 1 }).click();
  await alert.waitFor({ state: "detached" });
  expect(await page.getByLabel("Source of Density").inputValue()).toBe("");
  expect(await page.getByLabel("Source of Boiling").inputValue()).toBe("memory-metals");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Bridge steel 1962 is saved as version 1.").waitFor();
}

async function changeAndUndo(page: Page): Promise<void> {
  await page.getByRole("link", { name: "Change", exact: true }).click();
  const low = page.getByLabel("Melting begins, low, °C");
  await low.fill("1470");
  await page.getByRole("heading", { level: 1 }).click();
  await page.keyboard.press("Control+z");
  await expect.poll(() => low.inputValue()).toBe("1466.85");
  await page.keyboard.press("Control+y");
  await expect.poll(() => low.inputValue()).toBe("1470");
  // What is typed and not saved survives a reload.
  await page.reload();
  await page.getByText("kept in this browser and is put back").waitFor();
  expect(await low.inputValue()).toBe("1470");
  await page.getByRole("button", { name: "Save as a new version" }).click();
  await page.getByText("is saved as version 2.").waitFor();
  await page.getByText("1470 to 1512 °C").waitFor();
  await page.keyboard.press("Control+z");
  await page.getByText("The version before is back").waitFor();
  await page.getByText("1467 to 1512 °C").waitFor();
  await page.getByRole("button", { name: "History" }).click();
  await page.getByText("changed: melting begins").first().waitFor();
  expect(await violations(page)).toEqual([]);
  await page.getByRole("button", { name: "Put back" }).first().click();
  await page.getByText("is saved as version 4.").waitFor();
}

async function keepLaser(page: Page): Promise<void> {
  await page.goto(`${app.url}/#/library/setups/pulsed-200?do=copy`);
  await page.getByLabel("Name", { exact: true }).first().fill("Hall laser");
  await page.getByLabel("Source", { exact: true }).fill("Acceptance record of the machine in hall 2");
  await page.getByLabel("Rated power (W)").fill("150");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Hall laser is saved as version 1.").waitFor();
}

describe("own entries by clicks", () => {
  it("are made from the nearest, changed, taken back, and used in an enquiry's comparison of lasers", async () => {
    const { page, troubles } = await app.open("light", 1440);
    await keepMetal(page);
    await changeAndUndo(page);
    await keepLaser(page);
    await page.goto(`${app.url}/#/enquiry/island-ferry-yard/part?part=brackets`);
    await page.getByLabel("Metal", { exact: true }).first().click();
    await page.getByRole("option", { name: "Bridge steel 1962" }).click();
    await page.getByText("All changes saved").waitFor();
    await page.goto(`${app.url}/#/enquiry/island-ferry-yard/lasers?part=brackets`);
    await page.getByRole("button", { name: "Compare all set-ups" }).click();
    await page.getByRole("heading", { name: "Hall laser" }).waitFor({ timeout: 400_000 });
    expect(await page.locator(".verdict").count()).toBe(9);
    await page.goto(`${app.url}/#/library/metals/bridge-steel-1962`);
    await page.getByRole("link", { name: /Hatch covers and brackets/ }).waitFor();
    await page.getByRole("link", { name: "brackets-pulsed" }).waitFor();
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  it("stay where a kept record names them, and what nothing names is taken out and put back", async () => {
    const { page } = await app.open("dark", 390);
    await page.goto(`${app.url}/#/library/metals/bridge-steel-1962`);
    await page.getByRole("button", { name: "Take out" }).click();
    await page.getByText(/enquiry island-ferry-yard \(parts\[\d\]\.material bridge-steel-1962/).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.goto(`${app.url}/#/library/setups/hall-laser`);
    await page.getByRole("button", { name: "Take out" }).click();
    await page.getByText("Hall laser is taken out").waitFor();
    expect(await page.getByRole("link", { name: /^Hall laser/ }).count()).toBe(0);
    await page.getByRole("button", { name: "Put hall-laser back" }).click();
    await page.getByRole("link", { name: /^Hall laser/ }).waitFor();
    await page.context().close();
  });

  it("in place of ours say which predictions move, and only then do ours change", async () => {
    const { page, troubles } = await app.open("light", 1440);
    await page.goto(`${app.url}/#/library/layers/epoxy-primer?do=copy`);
    await page.getByText("In place of ours, for every enquiry of this store").click();
    await page.getByRole("heading", { name: "Predictions that move" }).waitFor();
    await page.getByText("Hatch covers and brackets").first().waitFor();
    await page.getByLabel("Source", { exact: true }).fill("Own pull-off tests, 2026");
    await page.getByLabel("Adhesion to what lies below, high, MPa").fill("12");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("is saved as version 1.").waitFor();
    await page.getByText("in place of ours", { exact: true }).waitFor();
    await page.goto(`${app.url}/#/library/layers`);
    await page.getByRole("link", { name: /^Epoxy primer.*in place of ours/ }).waitFor();
    expect(troubles).toEqual([]);
    await page.context().close();
  });

  it("go out as a file and come in again, and a file that does not fit is refused in its own words", async () => {
    const { page } = await app.open("light", 1440);
    await page.goto(`${app.url}/#/library/setups`);
    const button = page.getByRole("button", { name: "Save setups.hall-laser as a file" });
    const [download] = await Promise.all([page.waitForEvent("download"), button.click()]);
    expect(download.suggestedFilename()).toBe("setups.hall-laser.json");
    const file = JSON.parse(readFileSync(await download.path(), "utf8"));
    const bring = async (name: string, text: string) => {
      const [chooser] = await Promise.all([
        page.waitForEvent("filechooser"),
        page.getByRole("button", { name: "Read a file in" }).click(),
      ]);
      await chooser.setFiles({ name, mimeType: "application/json", buffer: Buffer.from(text) });
    };
    await bring("notes.json", "not json");
    await page.getByText("notes.json is not a file of the library").waitFor();
    await bring("twin.json", JSON.stringify(file));
    await page.getByText("hall-laser (is in own file setups.hall-laser already: change it there)").waitFor();
    const [laser] = file.setups;
    await bring("second.json", JSON.stringify({ ...file, setups: [{ ...laser, id: "second", name: "Second laser" }] }));
    await page.getByText("second is read in as version 1.").waitFor();
    await page.getByRole("link", { name: /^Second laser/ }).waitFor();
    await page.context().close();
  });

  it("changed in two places at once are never overwritten unseen", async () => {
    const { page } = await app.open("light", 1440);
    await page.goto(`${app.url}/#/library/setups/hall-laser?do=edit`);
    await page.getByLabel("Rated power (W)").fill("155");
    const { version, file } = (await (await fetch(`${app.url}/api/library/files/setups.hall-laser`)).json()) as {
      version: number;
      file: { setups: { passesMax: number }[] };
    };
    const other = { ...file, setups: file.setups.map((s) => ({ ...s, passesMax: 33 })) };
    await fetch(`${app.url}/api/library/files/setups.hall-laser`, {
      method: "PUT",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ version, file: other }),
    });
    const save = page.getByRole("button", { name: "Save as a new version" });
    await save.click();
    await page.getByText("was saved somewhere else").waitFor();
    expect(await page.getByLabel("Rated power (W)").inputValue()).toBe("155");
    await page.getByRole("button", { name: "Keep mine" }).click();
    await expect.poll(() => page.getByText("was saved somewhere else").count()).toBe(0);
    await save.click();
    await page.getByText(`Hall laser is saved as version ${version + 2}.`).waitFor();
    await page.getByText("155 W").first().waitFor();
    await page.context().close();
  });

  it("stand in the answer that the server works out, and in its papers", async () => {
    const call = async (method: string, path: string, body?: unknown) =>
      fetch(`${app.url}/api${path}`, {
        method,
        ...(body === undefined ? {} : { headers: { "content-type": "application/json" }, body: JSON.stringify(body) }),
      });
    const enquiry = {
      id: "bridge",
      title: "Bridge",
      invented: true,
      site: { laserPowerMax_W: 160 },
      parts: [
        {
          id: "rail",
          name: "Rail",
          material: "bridge-steel-1962",
          thickness_mm: 8,
          layers: [{ kind: "red-rust", thickness_um: 30 }],
        },
      ],
    };
    expect((await call("PUT", "/enquiries/bridge", { version: 0, enquiry })).status).toBe(200);
    const made = await call("POST", "/enquiries/bridge/answers", {});
    expect(made.status, await made.clone().text()).toBe(200);
    const { id } = (await made.json()) as { id: string };
    expect(await (await call("GET", `/answers/${id}/report.html`)).text()).toContain("Hall laser");
    const offer = await call("GET", "/enquiries/bridge/papers/rail/offer?format=html");
    expect(offer.status).toBe(200);
  });
});
