import { join } from "node:path";
import { build } from "tsdown";

const root = new URL("../..", import.meta.url).pathname;

/** The child of `costOfGrading` as one plain script, so that no translator of types takes memory in its process. */
export async function bundledChild(): Promise<string> {
  const outDir = join(root, "out/grading-child");
  await build({
    config: false,
    cwd: root,
    entry: { "grade-files": join(import.meta.dirname, "grade-files.ts") },
    outDir,
    format: "esm",
    platform: "node",
    target: "node20",
    dts: false,
    logLevel: "error",
  });
  return join(outDir, "grade-files.mjs");
}
