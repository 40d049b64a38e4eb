import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, vi } from "vitest";
import { main } from "#cli";
import { parseEnquiryFile } from "#contract";
import { loadExample, type RunningServer, startServer } from "#server";
import { openStore, type Store } from "#store";
import { leaveNote } from "../../src/cli/running-server.ts";

export const examples = new URL("../../examples/", import.meta.url).pathname;
const now = () => "2026-11-25T10:00:00.000Z";

export const small = {
  id: "small",
  title: "Small",
  parts: [
    {
      id: "cover",
      material: "steel-low-carbon",
      area_m2: 1,
      layers: [{ kind: "alkyd", colour: "mid", thickness_um: 40 }],
    },
  ],
};

/** The same records in two folders; a server runs on one of them. */
export interface TwoFolders {
  readonly root: string;
  readonly served: string;
  readonly plain: string;
  readonly store: Store;
  readonly server: RunningServer;
  close(): Promise<void>;
}

export async function openTwoFolders(): Promise<TwoFolders> {
  const root = mkdtempSync(join(tmpdir(), "by-server-"));
  const [served, plain] = [join(root, "served"), join(root, "plain")];
  mkdirSync(plain);
  const first = openStore(join(plain, "scourlight.db"), { now });
  await loadExample(first, examples);
  await first.write(async (tx) => {
    await tx.put("enquiry", parseEnquiryFile(small));
    await tx.put("shop-record", { id: "small", enquiry: "small", shop: { labour_per_h: 71 } });
  });
  await first.close();
  cpSync(plain, served, { recursive: true });
  const store = openStore(join(served, "scourlight.db"), { now });
  const server = await startServer({ port: 0, store, webRoot: null, examples, now });
  await leaveNote(served, server.url, null);
  return {
    root,
    served,
    plain,
    store,
    server,
    async close() {
      await server.close();
      await store.close();
      rmSync(root, { recursive: true, force: true });
    },
  };
}

export async function run(...args: string[]) {
  const out: string[] = [];
  const errors: string[] = [];
  const said = vi.spyOn(process.stderr, "write").mockImplementation((text) => {
    errors.push(String(text));
    return true;
  });
  const code = await main(
    ["node", "scourlight", ...args],
    (text) => out.push(text),
    (text) => errors.push(text),
  );
  said.mockRestore();
  return { code, out: out.join("\n"), errors: errors.join("") };
}

/** One command on both folders; `DATA` and `OUT` stand for the folders. What is printed has to be the same. */
export async function onBoth({ root, served, plain }: TwoFolders, ...args: string[]): Promise<string> {
  const on = (data: string, out: string) => {
    mkdirSync(join(root, out), { recursive: true });
    return run(...args.map((a) => a.replace("DATA", data).replace("OUT", join(root, out))));
  };
  const byServer = await on(served, "out-served");
  const byHand = await on(plain, "out-plain");
  expect(byServer.errors).toContain("by the server at http://127.0.0.1:");
  expect(byServer.errors.trim().split("\n").slice(1), byServer.errors).toEqual([]);
  expect(byHand.errors).toBe("");
  expect(byServer.code, byServer.out).toBe(0);
  const same = (text: string) =>
    text
      .replaceAll(served, "DATA")
      .replaceAll(plain, "DATA")
      .replaceAll("out-served", "out")
      .replaceAll("out-plain", "out");
  expect(same(byServer.out)).toBe(same(byHand.out));
  return same(byServer.out);
}

/** A file that a command wrote on both folders. */
export const writtenOnBoth = ({ root }: TwoFolders, name: string) =>
  [readFileSync(join(root, "out-served", name)), readFileSync(join(root, "out-plain", name))] as const;
