import { existsSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { openStore } from "#store";
import { exampleFolder } from "./job.ts";

export interface ServeFlags {
  readonly port: number;
  readonly data: string;
}
