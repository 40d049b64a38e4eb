import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type LibraryFile, metal, parseLibraryFile } from "#library";
import { copyOf, draftOf, fileOf, onFile, withHead, withValue } from "../../src/web/library/entry-draft.ts";
import { dropDraft, keepDraft, readDraft } from "../../src/web/library/kept-draft.ts";
import { changed, everywhere, redone, startOf, undone } from "../../src/web/undo/timeline.ts";

const copy = copyOf("metals", metal("steel-low-carbon"), { id: "bridge-steel", name: "Bridge steel" });
const file = parseLibraryFile(fileOf(withHead(copy, { citation: "Certificate 4711", note: "One heat." })));
const draft = draftOf("metals", "metals.bridge-steel", file, "bridge-steel")!;

describe("what was typed and not saved", () => {
  const kept = new Map<string, string>();
  beforeEach(() =>
    vi.stubGlobal("localStorage", {
      getItem: (key: string) => kept.get(key) ?? null,
      setItem: (key: string, text: string) => kept.set(key, text),
      removeItem: (key: string) => kept.delete(key),
    }),
  );
  afterEach(() => vi.unstubAllGlobals());

  it("is found with the version that it was made from, whatever was saved since", () => {
    expect(readDraft("edit")).toBeNull();
    keepDraft("edit", 3, draft);
    expect(readDraft("edit")).toEqual({ version: 3, draft: JSON.parse(JSON.stringify(draft)) });
    expect(readDraft("copy")).toBeNull();
    dropDraft("edit");
    expect(readDraft("edit")).toBeNull();
    kept.set("scourlight.library.edit", '{"version":"3"}');
    expect(readDraft("edit")).toBeNull();
  });
});

describe("a change that is carried over to a newer version of its file", () => {
  const [entry] = file.metals!;
  const newer = { ...file, metals: [{ ...entry!, id: "theirs", name: "Theirs" }, entry!] } as LibraryFile;
  const names = (of: unknown) => (of as LibraryFile).metals!.map((m) => m.name);

  it("keeps what others saved, in every step back and on", () => {
    const line = changed(startOf(draft), withValue(draft, ["name"], "Mine"), "name", 0);
    const carried = everywhere(line, (state) => onFile(state, newer));
    expect(names(fileOf(carried.now))).toEqual(["Theirs", "Mine"]);
    const back = undone(carried);
    expect(names(fileOf(back.now))).toEqual(["Theirs", "Bridge steel"]);
    expect(names(fileOf(redone(back).now))).toEqual(["Theirs", "Mine"]);
  });

  it("comes back into a file that it was taken out of", () => {
    const without = { ...file, metals: [{ ...entry!, id: "theirs", name: "Theirs" }] } as LibraryFile;
    expect(names(fileOf(onFile(draft, without)))).toEqual(["Theirs", "Bridge steel"]);
  });
});
