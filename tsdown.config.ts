import { defineConfig } from "tsdown";

export default defineConfig({
  entry: {
    "cli/start": "src/cli/start.ts",
    "compute/sweep-worker": "src/compute/sweep-worker.ts",
    "server/answer-worker": "src/server/answer-worker.ts",
    "server/photo-worker": "src/server/photo-worker.ts",
  },
  outDir: "dist",
  format: "esm",
  platform: "node",
  target: "node20",
  dts: false,
  clean: false,
  sourcemap: false,
  // Native and font packages stay where npm put them.
  deps: { neverBundle: ["libsql", "@myriaddreamin/typst-ts-node-compiler", "dejavu-fonts-ttf"] },
});
