import { describe, expect, it } from "vitest";
import { takeTurns } from "../../src/server/turns.ts";

/** A piece of work that ends when it is told to. */
function piece(name: string, begun: string[]) {
  let end: (failed?: Error) => void = () => undefined;
  const work = () =>
    new Promise<string>((resolve, reject) => {
      begun.push(name);
      end = (failed) => (failed ? reject(failed) : resolve(name));
    });
  return { work, end: (failed?: Error) => end(failed) };
}

const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

describe("turns", () => {
  it("let so many run at a time, and the others in the order in which they came", async () => {
    const turns = takeTurns(2, 5, "busy");
    const begun: string[] = [];
    const pieces = ["a", "b", "c", "d"].map((name) => piece(name, begun));
    const done = pieces.map((p) => turns(p.work));
    await settle();
    expect(begun).toEqual(["a", "b"]);
    pieces[1].end();
    await settle();
    expect(begun).toEqual(["a", "b", "c"]);
    pieces[0].end();
    await settle();
    expect(begun).toEqual(["a", "b", "c", "d"]);
    pieces[2].end();
    pieces[3].end();
    expect(await Promise.all(done)).toEqual(["a", "b", "c", "d"]);
  });

  it("go on after work that failed, and are free again afterwards", async () => {
    const turns = takeTurns(1, 5, "busy");
    const begun: string[] = [];
    const [a, b, c] = ["a", "b", "c"].map((name) => piece(name, begun));
    const failed = turns(a.work);
    const second = turns(b.work);
    await settle();
    a.end(new Error("no font"));
    await expect(failed).rejects.toThrow("no font");
    await settle();
    expect(begun).toEqual(["a", "b"]);
    b.end();
    await second;
    void turns(c.work);
    await settle();
    expect(begun).toEqual(["a", "b", "c"]);
  });

  it("refuse who comes when enough wait already", async () => {
    const turns = takeTurns(1, 1, "papers are being set already");
    const begun: string[] = [];
    const pieces = ["a", "b", "c"].map((name) => piece(name, begun));
    void turns(pieces[0].work);
    void turns(pieces[1].work);
    await expect(turns(pieces[2].work)).rejects.toThrow("papers are being set already");
    expect(begun).toEqual(["a"]);
  });
});
