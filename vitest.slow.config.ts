import { existsSync } from "node:fs";
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/slow/**/*.test.ts"],
    // What cannot be run here is named by scripts/check.mjs.
    exclude: [
      "**/node_modules/**",
      ...(existsSync("/usr/bin/chromium") ? [] : ["tests/slow/web/**"]),
      ...(existsSync("/usr/share/doc/opencv-doc/examples/data") ? [] : ["tests/slow/opencv-doc/**"]),
      ...(existsSync("/usr/lib/python3/dist-packages/skimage") ? [] : ["tests/slow/otsu.test.ts"]),
      ...(existsSync("/usr/bin/soffice") ? [] : ["tests/slow/xlsx/**"]),
    ],
    testTimeout: 600_000,
    hookTimeout: 120_000,
    maxWorkers: 1,
    allowOnly: false,
    passWithNoTests: false,
  },
});
