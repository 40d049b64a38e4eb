import { cpSync, existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openStore, type Store } from "#store";
import { isHere } from "../../src/cli/running-server.ts";
import { askServer } from "../../src/cli/server-api.ts";
import { examples, onBoth, openTwoFolders, run, type TwoFolders, writtenOnBoth } from "./two-folders.ts";

let both: TwoFolders;
beforeAll(async () => {
  both = await openTwoFolders();
});
afterAll(() => both.close());

describe("a data folder that a server runs on", () => {
  it("is listed and searched by it, with the same words", async () => {
    const listed = await onBoth(both, "list", "--data", "DATA");
    expect(listed).toContain("small  Small\n  described, version 1");
    expect(listed).toMatch(/trial brackets-pulsed: part brackets, pulsed-\d+, \d+ of \d+ patches graded/);
    const { enquiries } = JSON.parse(await onBoth(both, "list", "--data", "DATA", "--json"));
    expect(enquiries).toHaveLength(2);
    expect(await onBoth(both, "like", "white polyurethane on 5083", "--data", "DATA")).toContain("4 trials compared");
    expect(
      JSON.parse(await onBoth(both, "like", "alkyd", "--data", "DATA", "--most", "1", "--json")).trials,
    ).toHaveLength(1);
    // The line that names the server comes before; the refusal is the same.
    const plain = await run("like", "quux", "--data", both.plain);
    const served = await run("like", "quux", "--data", both.served);
    expect(plain.errors).toMatch(/^invalid question: quux \(names no layer/);
    expect(served.errors.endsWith(plain.errors), served.errors).toBe(true);
    expect(served.code).toBe(plain.code);
  });

  it("gives the same archive and tables, and takes an archive in with its times", async () => {
    await onBoth(both, "export", "--trial-id", "brackets-pulsed", "--data", "DATA", "--out", "OUT/t.crate.zip");
    const [one, other] = writtenOnBoth(both, "t.crate.zip");
    expect(one.equals(other)).toBe(true);
    await onBoth(both, "export", "--trial-id", "brackets-pulsed", "--data", "DATA", "--out", "OUT/t.csv");
    expect(writtenOnBoth(both, "t.csv")[0].equals(writtenOnBoth(both, "t.csv")[1])).toBe(true);
    expect(writtenOnBoth(both, "t.csv")[0].length).toBeGreaterThan(1000);
    expect(
      await onBoth(both, "import", "--archive", join(both.root, "out-plain/t.crate.zip"), "--data", "DATA"),
    ).toContain("nothing to add");

    const elsewhere = join(both.root, "elsewhere");
    await run("import", "--archive", join(both.root, "out-plain/t.crate.zip"), "--data", elsewhere);
    await run(
      "record",
      "--trial",
      join(examples, "brackets.pulsed.trial.json"),
      "--outcomes",
      join(examples, "brackets.pulsed.outcomes.csv"),
      "--data",
      elsewhere,
    );
    await run(
      "export",
      "--trial-id",
      "brackets-pulsed",
      "--data",
      elsewhere,
      "--out",
      join(both.root, "more.crate.zip"),
    );
    const added = await onBoth(both, "import", "--archive", join(both.root, "more.crate.zip"), "--data", "DATA");
    expect(added).toMatch(/added 0 versions of records, [1-9]\d* outcomes/);
    const rows = (s: Store) =>
      s.read(async (r) =>
        (await r.outcomeHistory("brackets-pulsed")).map(({ savedAt, outcome }) => ({ savedAt, outcome })),
      );
    const other2 = openStore(join(both.plain, "scourlight.db"));
    expect(await rows(both.store)).toEqual(await rows(other2));
    await other2.close();
  });

  it("gets outcomes and the enquiry recorded through it, and refuses in the same words", async () => {
    const csv = join(both.root, "more.csv");
    writeFileSync(csv, "patch,residue_percent,metalCondition,grader\n2,1,0,grader 8\n3,400,0,grader 8\n");
    const trial = join(examples, "brackets.pulsed.trial.json");
    const enquiry = join(both.root, "enquiry.json");
    writeFileSync(
      enquiry,
      JSON.stringify({ ...JSON.parse(readFileSync(join(examples, "enquiry.json"), "utf8")), title: "Changed" }),
    );
    const said = await onBoth(
      both,
      "record",
      "--trial",
      trial,
      "--outcomes",
      csv,
      "--enquiry",
      enquiry,
      "--data",
      "DATA",
    );
    expect(said).toContain("1 outcomes kept, 1 rows refused");
    const kept = (s: Store) =>
      s.read(async (r) => [
        (await r.outcomes("brackets-pulsed")).filter((o) => o.grader === "grader 8"),
        (await r.latest("enquiry", "island-ferry-yard"))?.record.title,
        (await r.history("trial", "brackets-pulsed")).length,
      ]);
    const other = openStore(join(both.plain, "scourlight.db"));
    expect(await kept(both.store)).toEqual(await kept(other));
    expect((await kept(both.store))[1]).toBe("Changed");
    await other.close();

    const changed = JSON.parse(readFileSync(trial, "utf8"));
    changed.patches[1].x_mm += 1;
    writeFileSync(join(both.root, "changed.json"), JSON.stringify(changed));
    const refused: (string | undefined)[] = [];
    for (const data of [both.served, both.plain]) {
      const said = await run("record", "--trial", join(both.root, "changed.json"), "--outcomes", csv, "--data", data);
      refused.push(said.errors.split("\n").at(-1));
    }
    expect(refused[0]).toContain("another plan is kept under this name");
    expect(refused[0]).toBe(refused[1]);
  });
});

describe("a trial that is planned", () => {
  const plan = (id: string) =>
    ["plan", "--enquiry", join(examples, "enquiry.json"), "--part", "brackets", "--laser", "pulsed-500"].concat(
      ["--setting", join(both.root, "mid.json"), "--design", "grid", "--patches", "6", "--draws", "8"],
      ["--rehearse", "0", "--id", id, "--data", "DATA", "--out", "OUT"],
    );

  it("is kept by the server, and takes no plan away that outcomes speak of", async () => {
    writeFileSync(join(both.root, "mid.json"), '{"passes": 2}');
    expect(await onBoth(both, ...plan("new-trial"))).toContain("Trial new-trial: ");
    const kept = (s: Store) => s.read(async (r) => (await r.latest("trial", "new-trial"))?.record);
    const other = openStore(join(both.plain, "scourlight.db"));
    expect((await kept(both.store))?.patches.length).toBeGreaterThan(3);
    expect(await kept(both.store)).toEqual(await kept(other));
    await other.close();
    for (const data of [both.served, both.plain]) {
      const filled = plan("brackets-pulsed").map((a) => a.replace("DATA", data).replace("OUT", join(both.root, "out")));
      const { code, errors } = await run(...filled);
      expect(code).toBe(2);
      expect(errors).toContain("has outcomes already: keep another plan under another id");
    }
  });
});

describe("the note of a server", () => {
  it("is read by nobody else and not believed when the server is gone, another or unreadable", async () => {
    const note = JSON.parse(readFileSync(join(both.served, "server.json"), "utf8"));
    expect(note).toMatchObject({ address: both.server.url, pid: process.pid });
    expect(statSync(join(both.served, "server.json")).mode & 0o077).toBe(0);
    const away = join(both.root, "away");
    mkdirSync(away);
    cpSync(both.plain, away, { recursive: true });
    for (const stale of [
      { ...note, pid: 2 ** 22 + 1 },
      { ...note, instance: "7-7" },
      { ...note, address: "http://127.0.0.1:9" },
      { ...note, pid: "1" },
      "{",
    ]) {
      writeFileSync(join(away, "server.json"), typeof stale === "string" ? stale : JSON.stringify(stale));
      const { code, errors } = await run("list", "--data", away);
      expect({ code, errors }).toEqual({ code: 0, errors: "" });
    }
    expect(existsSync(join(away, "server.json"))).toBe(true);
  });

  it("sends nobody to another machine", () => {
    for (const here of ["http://127.0.0.1:4173", "http://localhost:4173", "http://[::1]:4173", both.server.url])
      expect(isHere(here), here).toBe(true);
    for (const away of ["http://192.0.2.7:4173", "http://127.0.0.1.example", "https://127.0.0.1", "4173", ""])
      expect(isHere(away), away).toBe(false);
  });
});

describe("a server that is asked too often", () => {
  it("is asked again when it says so; any other refusal is the answer", async () => {
    let asked = 0;
    const busy = createServer((_request, answer) => {
      asked += 1;
      const [status, headers] = asked < 3 ? [429, { "retry-after": "0" }] : asked === 3 ? [200, {}] : [429, {}];
      answer.writeHead(status, headers).end(JSON.stringify(status === 200 ? { good: true } : { error: "busy now" }));
    });
    await new Promise<void>((resolve) => busy.listen(0, "127.0.0.1", resolve));
    const door = { address: `http://127.0.0.1:${(busy.address() as AddressInfo).port}`, word: null };
    expect(await askServer(door, "GET", "/x")).toEqual({ good: true });
    expect(asked).toBe(3);
    await expect(askServer(door, "GET", "/x")).rejects.toThrow("busy now");
    busy.close();
    await expect(askServer(door, "GET", "/x")).rejects.toThrow("went away");
  });
});
