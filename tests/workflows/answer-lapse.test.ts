import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parseEnquiry, parseOutcomesCsv, parseTrial } from "#contract";
import { createLibrary } from "#library";
import { answerFlow, type AnswerOptions, type PartTask } from "#workflows";

const example = (name: string) => readFileSync(new URL(`../../examples/${name}`, import.meta.url), "utf8");

describe("the share of wrong grades of an answer", () => {
  const library = createLibrary([]);
  const enquiry = parseEnquiry(JSON.parse(example("enquiry.json")), library);
  const trial = parseTrial(JSON.parse(example("hatch-covers.pulsed.trial.json")));
  const outcomes = parseOutcomesCsv(example("hatch-covers.pulsed.outcomes.csv"), trial, []).accepted;
  const windows = (more: Partial<AnswerOptions>): PartTask[] => {
    const options = { seed: 1, drawCount: 8, setups: [library.setup("pulsed-500")], trials: [{ trial, outcomes }] };
    const first = answerFlow(enquiry, { ...options, ...more }).next([]).value as readonly PartTask[];
    return first.filter((task) => task.kind === "window");
  };

  it("reaches the window of every trial, and is left to the model where nobody knows it", () => {
    expect(windows({ lapse: 0.12 })).toMatchObject([{ trial: { id: "hatch-covers-pulsed" }, lapse: 0.12 }]);
    expect(windows({})[0]).not.toHaveProperty("lapse");
  });
});
