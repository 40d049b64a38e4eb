// Makes the pictures in docs/pictures from the built product: the report's first page and the main pages of the app.
// Needs Debian's packages chromium and poppler-utils; says so in one line when they are missing.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";

const root = new URL("..", import.meta.url).pathname;
const out = join(root, "docs/pictures");
for (const [file, name] of [
  ["/usr/bin/chromium", "chromium"],
  ["/usr/bin/pdftoppm", "poppler-utils"],
]) {
  if (!existsSync(file)) {
    console.error(`invalid machine: ${name} is missing (apt-get install ${name})`);
    process.exit(2);
  }
}
mkdirSync(out, { recursive: true });
const start = join(root, "dist/cli/start.mjs");
const folder = mkdtempSync(join(tmpdir(), "pictures-"));
spawnSync(process.execPath, [start, "job", "--out", folder, "--date", "2026-11-25"], { stdio: "inherit" });
spawnSync("pdftoppm", [
  "-png",
  "-r",
  "80",
  "-f",
  "1",
  "-l",
  "1",
  "-singlefile",
  join(folder, "report.pdf"),
  join(out, "report"),
]);
const procedure = join(folder, "papers/island-ferry-yard.hatch-covers.procedure.pdf");
spawnSync("pdftoppm", ["-png", "-r", "80", "-singlefile", procedure, join(out, "procedure")]);
// The invented photographs of the example, read as anybody's would be, so that the results page has some to show.
spawnSync(
  process.execPath,
  [
    start,
    "grade",
    ...["--enquiry", join(root, "examples/enquiry.json")],
    ...["--trial", join(root, "examples/hatch-covers.pulsed.trial.json")],
    ...["--photos", join(root, "examples/photos/hatch-covers.pulsed.coupon-1")],
    ...["--out", join(folder, "graded"), "--data", join(folder, "data")],
  ],
  { stdio: "inherit" },
);

const port = 4391;
const server = spawn(process.execPath, [start, "serve", "--port", String(port), "--data", join(folder, "data")], {
  stdio: ["ignore", "pipe", "inherit"],
});
await new Promise((resolve) => server.stdout.once("data", resolve));
const browser = await chromium.launch({
  executablePath: "/usr/bin/chromium",
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
  ],
});
const views = [
  ["part", "#/enquiry/island-ferry-yard/part", null],
  ["lasers", "#/enquiry/island-ferry-yard/lasers", "Compare all set-ups"],
  ["setting", "#/enquiry/island-ferry-yard/setting?part=hatch-covers", null],
  ["film", "#/enquiry/island-ferry-yard/setting?part=hatch-covers", null],
  ["archive", "#/archive?text=paint%20on%20aluminium", null],
  ["results", "#/enquiry/island-ferry-yard/results?part=hatch-covers&trial=hatch-covers-pulsed", null],
  ["window", "#/enquiry/island-ferry-yard/window?part=hatch-covers&trial=hatch-covers-pulsed", "Fit the window"],
];
for (const scheme of ["light", "dark"]) {
  const page = await browser.newPage({ viewport: { width: 1440, height: 1000 }, colorScheme: scheme });
  for (const [name, hash, button] of views) {
    if (scheme === "dark" && name !== "window") continue;
    await page.goto(`http://127.0.0.1:${port}/${hash}`);
    await page.waitForTimeout(1500);
    if (button) {
      await page.getByRole("button", { name: button }).first().click();
      await page
        .getByText(name === "lasers" ? "Compare again" : "Fit again")
        .first()
        .waitFor({ timeout: 120_000 });
      await page.waitForTimeout(800);
    }
    if (name === "setting" || name === "film") {
      await page.getByRole("button", { name: "Take the best setting found for it" }).first().click();
      await page.waitForTimeout(5000);
    }
    if (name === "film") await page.locator(".map-pad").evaluate((e) => e.scrollIntoView());
    // The photograph is what this picture is for.
    if (name === "results") await page.getByRole("heading", { name: "Coupon 1" }).evaluate((e) => e.scrollIntoView());
    await page.screenshot({ path: join(out, `${name}${scheme === "dark" ? "-dark" : ""}.png`) });
  }
}
const phone = await browser.newPage({ viewport: { width: 390, height: 844 }, colorScheme: "light" });
await phone.goto(`http://127.0.0.1:${port}/#/bench/hatch-covers-pulsed`);
await phone.waitForTimeout(1500);
await phone.getByRole("heading", { name: "Cautions" }).first().click();
await phone.waitForTimeout(500);
await phone.screenshot({ path: join(out, "bench.png") });
await browser.close();
server.kill();
rmSync(folder, { recursive: true, force: true });
