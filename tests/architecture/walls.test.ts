import { cpSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { execFileSync, spawnSync } from "node:child_process";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { roomNames, rooms } from "../../architecture/rooms.mjs";

const root = new URL("../..", import.meta.url).pathname;

/** Runs the walls over a folder of sources laid out like ours and returns what they say. */
function walls(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), "walls-"));
  try {
    for (const name of ["package.json", "tsconfig.json", "tsconfig.base.json"])
      cpSync(join(root, name), join(folder, name));
    cpSync(join(root, "architecture"), join(folder, "architecture"), { recursive: true });
    symlinkSync(join(root, "node_modules"), join(folder, "node_modules"));
    for (const room of roomNames) {
      mkdirSync(join(folder, "src", room), { recursive: true });
      writeFileSync(join(folder, "src", room, "index.ts"), "export const here = 1;\n");
      writeFileSync(join(folder, "src", room, "inner.ts"), "export const inner = 1;\n");
    }
    for (const [path, text] of Object.entries(files)) writeFileSync(join(folder, path), text);
    const { stdout, stderr } = spawnSync(
      process.execPath,
      [
        join(root, "node_modules/dependency-cruiser/bin/dependency-cruise.mjs"),
        "--config",
        "architecture/depcruise.config.mjs",
        "--output-type",
        "err",
        "src",
      ],
      { cwd: folder, encoding: "utf8" },
    );
    return stdout + stderr;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

describe("walls", () => {
  it("let an allowed import through a door pass, and look at every module", () => {
    const said = walls({ "src/heat/good.ts": 'import { here } from "#numerics";\nexport const x = here;\n' });
    expect(said).toContain("no dependency violations found");
    expect(Number(/(\d+) modules/.exec(said)?.[1])).toBeGreaterThanOrEqual(2 * roomNames.length);
  });

  it.each([
    [
      "an upward import",
      { "src/heat/bad.ts": 'import { here } from "#window";\nexport const x = here;\n' },
      "walls-of-heat",
    ],
    [
      "physics to its left",
      { "src/light/bad.ts": 'import { here } from "#heat";\nexport const x = here;\n' },
      "walls-of-light",
    ],
    [
      "a way past the door",
      { "src/heat/bad.ts": 'import { inner } from "../numerics/inner.ts";\nexport const x = inner;\n' },
      "door-of-numerics",
    ],
    [
      "a pure room that reads files",
      { "src/window/bad.ts": 'import { readFileSync } from "node:fs";\nexport const x = readFileSync;\n' },
      "pure-rooms-touch-nothing",
    ],
    [
      "the pages reaching for the store",
      { "src/web/bad.ts": 'import { here } from "#store";\nexport const x = here;\n' },
      "walls-of-web",
    ],
    [
      "the window looking at the truth",
      { "src/window/bad.ts": 'import { here } from "#truth";\nexport const x = here;\n' },
      "walls-of-window",
    ],
    [
      "a circle",
      {
        "src/heat/a.ts": 'import { b } from "./b.ts";\nexport const a = b;\n',
        "src/heat/b.ts": 'import { a } from "./a.ts";\nexport const b = a;\n',
      },
      "no-circular",
    ],
  ])("refuse %s", (_what, files, rule) => {
    expect(walls(files)).toContain(rule);
  });
});

describe("the table of rooms", () => {
  it("names every folder of src, and the doors of package.json follow it", () => {
    expect(readdirSync(join(root, "src")).sort()).toEqual([...roomNames].sort());
    const { imports } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
    expect(imports).toEqual(Object.fromEntries(rooms.map((r) => [`#${r.name}`, `./src/${r.name}/index.ts`])));
  });

  it("lets no room import itself or a room that may import it", () => {
    for (const room of rooms) {
      expect(room.may).not.toContain(room.name);
      for (const other of room.may) expect(rooms.find((r) => r.name === other)?.may).not.toContain(room.name);
    }
  });

  it("keeps clock, dice and environment out of pure rooms", () => {
    const found: string[] = [];
    for (const room of rooms.filter((r) => r.env === "core")) {
      const files = execFileSync("find", [join(root, "src", room.name), "-name", "*.ts"], { encoding: "utf8" })
        .trim()
        .split("\n");
      for (const file of files.filter((f) => f !== "")) {
        if (/Date\.now|Math\.random|new Date\(\)|process\.env/.test(readFileSync(file, "utf8"))) found.push(file);
      }
    }
    expect(found).toEqual([]);
  });
});
