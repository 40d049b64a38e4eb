// The one check, equal to CI: types, walls, lint, tests; `full` adds the slow sets. Ends with "N passed, N failed".
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";

const root = new URL("..", import.meta.url).pathname;
const slowOnly = process.argv.includes("slow-only");
const full = slowOnly || process.argv.includes("full");
let passed = 0;
let failed = 0;
const notRun = [];

function step(name, command, args, env = {}) {
  const started = Date.now();
  const { status } = spawnSync(command, args, { cwd: root, stdio: "inherit", env: { ...process.env, ...env } });
  console.log(`${status === 0 ? "ok  " : "FAIL"} ${name} (${((Date.now() - started) / 1000).toFixed(1)} s)`);
  return status === 0;
}

function count(ok) {
  if (ok) passed++;
  else failed++;
}

if (!slowOnly) {
  const tsc = join(root, "node_modules/typescript-native/bin/tsc");
  for (const environment of ["core", "node", "web", "pages"]) {
    count(step(`types: ${environment}`, process.execPath, [tsc, "-p", `tsconfig.${environment}.json`]));
  }
  count(
    step("walls", "npx", [
      "--no-install",
      "depcruise",
      "--config",
      "architecture/depcruise.config.mjs",
      "--output-type",
      "err",
      "src",
    ]),
  );
  count(
    step("lint and format", "npx", [
      "--no-install",
      "biome",
      "check",
      "--error-on-warnings",
      "src",
      "tests",
      "bench",
      "scripts",
      "tools",
      "architecture",
    ]),
  );
}

function vitest(name, config) {
  mkdirSync(join(root, "out"), { recursive: true });
  const report = join(root, "out", `${name}.json`);
  rmSync(report, { force: true });
  step(`tests: ${name}`, "npx", [
    "--no-install",
    "vitest",
    "run",
    "--config",
    config,
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${report}`,
  ]);
  if (!existsSync(report)) return count(false);
  const result = JSON.parse(readFileSync(report, "utf8"));
  passed += result.numPassedTests;
  failed +=
    result.numFailedTests +
    result.testResults.filter((f) => f.status === "failed" && f.assertionResults.length === 0).length;
  const skipped = result.numPendingTests + result.numTodoTests;
  if (skipped > 0) {
    console.log(`FAIL a skipped test is a failed promise: ${skipped}`);
    failed += skipped;
  }
}

/** Installs a Debian package that slow tests need where that is possible, and says so where it is not. */
function needs(name, path, tests) {
  if (existsSync(path)) return;
  const apt = (...args) => spawnSync("apt-get", args, { stdio: "ignore" }).status === 0;
  const installed =
    process.getuid?.() === 0 && apt("update", "-qq") && apt("install", "-y", "-qq", name) && existsSync(path);
  if (!installed) notRun.push(`${tests}: they need Debian's package ${name}, which could not be installed here`);
}

if (!slowOnly) vitest("fast", "vitest.config.ts");
if (full) {
  needs("chromium", "/usr/bin/chromium", "browser tests");
  needs("opencv-doc", "/usr/share/doc/opencv-doc/examples/data", "pictures of known geometry");
  needs("libreoffice-calc", "/usr/bin/soffice", "workbooks opened in an office suite");
  needs("python3-skimage", "/usr/lib/python3/dist-packages/skimage", "thresholds of a reference library");
  vitest("slow", "vitest.slow.config.ts");
}
for (const line of notRun) console.log(`not run: ${line}`);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
