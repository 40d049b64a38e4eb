import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parseEnquiry, parseOutcomesCsv, parseTrial } from "#contract";
import { createLibrary } from "#library";
import { answerEnquiry } from "#workflows";

const root = new URL("../..", import.meta.url).pathname;
const library = createLibrary([]);
const two = [library.setup("pulsed-500"), library.setup("continuous-1000")];

describe("the example", () => {
  it("is answered part by part with its trials", () => {
    const enquiry = parseEnquiry(JSON.parse(readFileSync(join(root, "examples/enquiry.json"), "utf8")), library);
    const trial = parseTrial(JSON.parse(readFileSync(join(root, "examples/hatch-covers.pulsed.trial.json"), "utf8")));
    const { accepted, refused } = parseOutcomesCsv(
      readFileSync(join(root, "examples/hatch-covers.pulsed.outcomes.csv"), "utf8"),
      trial,
    );
    expect(refused).toEqual([]);
    const answer = answerEnquiry(enquiry, {
      seed: 1,
      drawCount: 8,
      setups: two,
      trials: [{ trial, outcomes: accepted }],
    });
    expect(answer.parts.map((p) => p.trials.length)).toEqual([1, 0]);
    expect(answer.parts[0].trials[0].window!.diagnostics.patches).toBe(accepted.length);
    expect(JSON.stringify(answer, (_k, v) => (typeof v === "number" && !Number.isFinite(v) ? "bad" : v))).not.toContain(
      '"bad"',
    );
  }, 120_000);
});
