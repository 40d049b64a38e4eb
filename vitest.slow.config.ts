import { existsSync } from "node:fs";
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/slow/**/*.test.ts"],
    exclude: existsSync("/usr/bin/chromium") ? ["**/node_modules/**"] : ["**/node_modules/**", "tests/slow/web/**"],
    testTimeout: 600_000,
    hookTimeout: 120_000,
    maxWorkers: 1,
    allowOnly: false,
    passWithNoTests: false,
  },
});
