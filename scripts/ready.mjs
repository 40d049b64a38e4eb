// Makes a fresh checkout ready: installs what the lock file names when it is not there yet, builds what is asked for.
// Usage: node scripts/ready.mjs [build]
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const [major, minor] = process.versions.node.split(".").map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`invalid Node.js: ${process.versions.node} (20.19 or newer)`);
  process.exit(2);
}

const root = new URL("..", import.meta.url).pathname;
const run = (command, args) => execFileSync(command, args, { cwd: root, stdio: ["ignore", "inherit", "inherit"] });
const hash = (text) => createHash("sha256").update(text).digest("hex");

const lock = hash(readFileSync(join(root, "package-lock.json")));
const mark = join(root, "node_modules", ".lock-installed");
if (!existsSync(mark) || readFileSync(mark, "utf8") !== lock) {
  console.log("installing what package-lock.json names");
  run("npm", ["ci", "--no-audit", "--no-fund", "--loglevel=error"]);
  writeFileSync(mark, lock);
}

if (process.argv.includes("build")) {
  const files = (folder) =>
    readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
      .filter((f) => f.isFile())
      .map((f) => join(f.parentPath ?? f.path, f.name));
  const stamp = hash(
    [...files("src"), join(root, "package.json"), join(root, "vite.config.ts"), join(root, "tsdown.config.ts"), mark]
      .map((f) => `${f} ${statSync(f).mtimeMs} ${statSync(f).size}`)
      .join("\n"),
  );
  const built = join(root, "dist", ".built");
  if (!existsSync(built) || readFileSync(built, "utf8") !== stamp) {
    console.log("building the commands and the pages");
    rmSync(join(root, "dist"), { recursive: true, force: true });
    run("npx", ["--no-install", "tsdown", "--logLevel", "error"]);
    run("npx", ["--no-install", "vite", "build", "--logLevel", "warn"]);
    mkdirSync(join(root, "dist"), { recursive: true });
    writeFileSync(built, stamp);
  }
}
