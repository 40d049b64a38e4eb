import { mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { loadExample, type RunningServer, startServer } from "#server";
import { openStore, type Store } from "#store";

const root = new URL("../../..", import.meta.url).pathname;
const axe = createRequire(import.meta.url).resolve("axe-core");
const flags = [
  "--no-sandbox",
  "--disable-gpu",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export type Scheme = "light" | "dark";

export interface AppOptions {
  readonly fill?: (store: Store) => Promise<unknown>;
  readonly draws?: number;
}

/** The invented example, as a person finds it. */
export const example = (store: Store): Promise<unknown> => loadExample(store, join(root, "examples"));

export interface Opened {
  readonly page: Page;
  /** errors of the console and of scripts, as they come */
  readonly troubles: string[];
}

/** The built pages on a store of their own that holds the example, in a browser without a screen. */
export class App {
  readonly store: Store;
  readonly url: string;
  readonly #folder: string;
  readonly #server: RunningServer;
  readonly #browser: Browser;

  private constructor(folder: string, store: Store, server: RunningServer, browser: Browser) {
    this.#folder = folder;
    this.store = store;
    this.#server = server;
    this.url = server.url;
    this.#browser = browser;
  }

  /** `fill` puts something else than the example into the store; `draws` versions of the physics behind an answer. */
  static async start({ fill = example, draws = 8 }: AppOptions = {}): Promise<App> {
    const folder = mkdtempSync(join(tmpdir(), "app-"));
    const store = openStore(join(folder, "app.db"));
    await fill(store);
    const server = await startServer({
      port: 0,
      store,
      webRoot: join(root, "dist/web"),
      examples: join(root, "examples"),
      now: () => "2026-11-25T10:00:00.000Z",
      draws,
    });
    const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: flags });
    return new App(folder, store, server, browser);
  }

  /** A page of a browser that has kept nothing, `before` prepared it; axe is put into it from outside, the page's own policy would refuse it. */
  async open(scheme: Scheme, width: number, before?: (context: BrowserContext) => Promise<unknown>): Promise<Opened> {
    const context = await this.#browser.newContext({
      viewport: { width, height: 900 },
      colorScheme: scheme,
      reducedMotion: "reduce",
    });
    await context.addInitScript({ path: axe });
    await before?.(context);
    const page = await context.newPage();
    const troubles: string[] = [];
    page.on("console", (message) => {
      if (message.type() === "error") troubles.push(message.text());
    });
    page.on("pageerror", (error) => troubles.push(error.message));
    return { page, troubles };
  }

  async stop(): Promise<void> {
    await this.#browser.close();
    await this.#server.close();
    await this.store.close();
    rmSync(this.#folder, { recursive: true, force: true });
  }
}

/** What axe finds on a page, a line each. */
export async function violations(page: Page): Promise<string[]> {
  return page.evaluate(async () => {
    interface Finding {
      readonly id: string;
      readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[];
    }
    const { axe: found } = globalThis as unknown as { axe: { run: () => Promise<{ violations: Finding[] }> } };
    return (await found.run()).violations.map(
      (v) => `${v.id}: ${v.nodes[0]?.html.slice(0, 160)} ${v.nodes[0]?.failureSummary ?? ""}`,
    );
  });
}

/** px by which a page is wider than the screen. */
export const overhang = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
