import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";

const file = new URL("../../../out/web.json", import.meta.url).pathname;

/** Puts measured figures beside those that other tests have measured; a figure of the same name is replaced. */
export function record(figures: Readonly<Record<string, number>>): void {
  mkdirSync(dirname(file), { recursive: true });
  const before: unknown = existsSync(file) ? JSON.parse(readFileSync(file, "utf8")) : {};
  writeFileSync(file, `${JSON.stringify({ ...(before as object), ...figures }, null, 2)}\n`);
}
