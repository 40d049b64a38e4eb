import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    setupFiles: ["tests/setup.ts"],
    exclude: ["tests/slow/**", "**/node_modules/**"],
    testTimeout: 30_000,
    maxWorkers: 2,
    allowOnly: false,
    passWithNoTests: false,
  },
});
