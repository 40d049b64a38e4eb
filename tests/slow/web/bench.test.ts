import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import {
  burn,
  current,
  listen,
  logOf,
  looksRight,
  newPhone,
  openWorkshop,
  portOf,
  progress,
  putTrial,
  ready,
  root,
  serve,
  trial,
  violations,
  type Workshop,
} from "./bench-phone.ts";

const picture = join(root, "examples/photos/hatch-covers.pulsed.coupon-1/turn-0.jpg");
let shop: Workshop;
beforeAll(async () => {
  shop = await openWorkshop();
});
afterAll(() => shop?.close());

describe("the run list on a phone", () => {
  it("keeps every tick through a lost network and a reload, and sends each exactly once", async () => {
    const id = "bench-offline";
    await putTrial(shop, id);
    let server = await serve(shop, 0);
    const port = portOf(server);
    const phone = await newPhone(shop);
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
    expect((await logOf(shop, id)).map((e) => [e.kind, e.patch, e.by])).toEqual(
      [shop.order[0], shop.order[1]].map((patch) => ["burned", patch, "Ines"]),
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

    server = await serve(shop, port);
    await context.setOffline(false);
    await page.getByText("Everything is noted on the server.").waitFor({ timeout: 90_000 });
    phone.away = false;
    const log = await logOf(shop, id);
    expect(log.map((e) => [e.kind, e.patch])).toEqual([
      ["burned", shop.order[0]],
      ["burned", shop.order[1]],
      ["burned", shop.order[2]],
      ["burned", shop.order[3]],
      ["skipped", shop.order[4]],
      ["photo", shop.order[5]],
      ["burned", shop.order[5]],
    ]);
    expect(new Set(log.map((e) => e.id)).size).toBe(log.length);
    const photo = log.find((e) => e.kind === "photo")?.photo ?? "";
    expect(Buffer.from((await shop.store.photo(photo))!).equals(readFileSync(picture))).toBe(true);

    // another phone sees them, ticks on, and takes back; the first one hears of it
    const other = await newPhone(shop);
    await other.page.goto(`${server.url}/#/bench/${id}`);
    await burn(other.page, 7);
    await progress(page, "7 of 8");
    await other.page.locator(".bench-last").getByRole("button", { name: "Take back" }).click();
    await progress(other.page, "6 of 8");
    await progress(page, "6 of 8");
    expect((await logOf(shop, id)).map((e) => e.kind).slice(-2)).toEqual(["burned", "undo-of"]);
    expect([...phone.troubles, ...other.troubles]).toEqual([]);
    await context.close();
    await other.context.close();
    await server.close();
  });

  it("shows what the server refuses until a person has seen to it", async () => {
    const id = "bench-refused";
    await putTrial(shop, id);
    const server = await serve(shop, 0);
    const { page, context, troubles } = await newPhone(shop);
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
    expect(await logOf(shop, id)).toEqual([]);
    expect(troubles.filter((t) => !/the server responded with a status of 400/.test(t))).toEqual([]);
    await context.close();
    await server.close();
  });
});

describe("the desk", () => {
  it("reads a photograph that was taken at the machine by one click, and asks for no patch that was skipped", async () => {
    await putTrial(shop, "bench-skip");
    const server = await serve(shop, 0);
    const phone = await newPhone(shop);
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

    const desk = await newPhone(shop);
    const { page } = desk;
    await page.setViewportSize({ width: 1440, height: 900 });
    await page.goto(`${server.url}/#/enquiry/island-ferry-yard/results?part=hatch-covers&trial=${trial}`);
    await page.getByRole("heading", { name: "Photographs taken at the machine" }).waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole("button", { name: "Read it" }).click();
    await page.getByRole("button", { name: "Read it" }).waitFor({ state: "detached", timeout: 120_000 });
    await expect
      .poll(
        async () => (await shop.store.read((r) => r.latest("grading", `${trial}.coupon-1`)))?.record.photos.length,
        {
          timeout: 120_000,
        },
      )
      .toBe(1);

    await page.goto(`${server.url}/#/enquiry/island-ferry-yard/results?part=hatch-covers&trial=bench-skip`);
    await page.reload();
    await page.getByText(`Skipped at the machine, so not asked for: ${shop.order[0]}`).waitFor();
    await page.getByText("0 of 8 burned, last ").getByText("; 1 skipped").waitFor();
    const rows = page.locator("table.entry tbody th");
    await expect.poll(() => rows.allInnerTexts()).toEqual(shop.order.slice(1, 8).map(String));
    expect([...phone.troubles, ...desk.troubles]).toEqual([]);
    await phone.context.close();
    await desk.context.close();
    await server.close();
  });
});
