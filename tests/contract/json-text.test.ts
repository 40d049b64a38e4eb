import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { parseJsonText } from "#contract";
import { firstJsonFault } from "../../src/contract/json-fault.ts";
import { linesOf } from "./lines.ts";

const line = (text: string) => linesOf(() => parseJsonText(text, "enquiry.json"))[0];

describe("JSON text", () => {
  it("is read, with a byte order mark too", () => {
    expect(parseJsonText('\uFEFF{"a": [1, -2.5e3, "x\\u00e9", null, true]}', "x")).toEqual({
      a: [1, -2500, "xé", null, true],
    });
  });

  it.each([
    ['{"a": 1,\n  "b" 2}', '":"-less', 'invalid enquiry.json: "2" at line 2 column 7 (must be well-formed JSON)'],
    ['{"a": x}', "a bare word", 'invalid enquiry.json: "x" at line 1 column 7 (must be well-formed JSON)'],
    [
      '{\r\n"a": [1, 2',
      "an early end",
      "invalid enquiry.json: the text ends at line 2 column 11 (must be well-formed JSON)",
    ],
    ["[1,]", "a comma too many", 'invalid enquiry.json: "]" at line 1 column 4 (must be well-formed JSON)'],
    ['{"a": 1}}', "a bracket too many", 'invalid enquiry.json: "}" at line 1 column 9 (must be well-formed JSON)'],
    ['["a\nb"]', "a line break in a text", 'invalid enquiry.json: """ at line 1 column 2 (must be well-formed JSON)'],
    ["  \n", "nothing", "invalid enquiry.json: empty (must hold JSON)"],
  ])("%j (%s) is refused with line and column", (text, _what, expected) => {
    expect(line(text)).toBe(expected);
  });

  it("of more than 20 MB is refused before it is parsed", () => {
    const large = `["${"x".repeat(50_000_000)}"]`;
    const before = performance.now();
    expect(line(large)).toBe("invalid enquiry.json: 50.0 MB (at most 20 MB of text are read)");
    expect(performance.now() - before).toBeLessThan(200);
  });

  it("nested a million deep neither hangs nor breaks", () => {
    expect(line("[".repeat(1_000_000))).toBe(
      "invalid enquiry.json: the text ends at line 1 column 1000001 (must be well-formed JSON)",
    );
  });

  it("has its fault found exactly where the parser of the engine finds one", () => {
    const broken = fc
      .tuple(fc.json(), fc.nat(), fc.constantFrom("", ",", "}", "]", '"', ":", "x", "0", "\n"))
      .map(
        ([text, at, mark]) => text.slice(0, at % (text.length + 1)) + mark + text.slice((at % (text.length + 1)) + 1),
      );
    fc.assert(
      fc.property(fc.oneof(fc.json(), broken), (text) => {
        let fine = true;
        try {
          JSON.parse(text);
        } catch {
          fine = false;
        }
        expect(firstJsonFault(text) === -1).toBe(fine);
      }),
      { numRuns: 2000, seed: 1 },
    );
  });
});
