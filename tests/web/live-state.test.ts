import { describe, expect, it } from "vitest";
import type { SettingAnswer } from "../../src/web/live/protocol.ts";
import {
  about,
  FULL_DRAWS,
  nothing,
  QUICK_DRAWS,
  withAnswer,
  withFailure,
} from "../../src/web/steps/setting/live-state.ts";

const answer = (setupId: string) => ({ prediction: { setupId } }) as SettingAnswer;
const [first, second] = [answer("pulsed-100"), answer("pulsed-100")];
const quick = (number: number) => ({ number, drawCount: QUICK_DRAWS });
const full = (number: number) => ({ number, drawCount: FULL_DRAWS });

describe("answers from two workers", () => {
  it("sharpen: a quick one that comes behind its full one changes nothing", () => {
    const sharp = withAnswer(withAnswer(nothing, first, quick(1), 1), second, full(1), 1);
    expect(sharp).toMatchObject({ answer: second, state: "done", draws: FULL_DRAWS, answered: 1 });
    expect(withAnswer(sharp, first, quick(1), 1)).toBe(sharp);
    expect(withAnswer(sharp, first, quick(2), 2)).toMatchObject({ state: "first", answered: 2 });
  });

  it("follow the hand: a quick one of an earlier place is shown, a full one or a failure of it is not", () => {
    expect(withAnswer(nothing, first, quick(1), 3)).toMatchObject({ state: "first", answered: 1, asked: 3 });
    expect(withAnswer(nothing, first, full(1), 3)).toBe(nothing);
    expect(withFailure(nothing, new Error("no"), full(1), 3)).toBe(nothing);
    expect(withFailure(nothing, new Error("no"), quick(3), 3)).toMatchObject({ state: "failed", line: "no" });
  });

  it("belong to their laser", () => {
    const live = withAnswer(nothing, first, full(1), 1);
    expect(about(live, "pulsed-100")).toBe(live);
    expect(about(live, "pulsed-500")).toEqual({ ...nothing, answered: 1, asked: 1 });
    const failed = about(withFailure(live, new Error("no"), quick(2), 2), "pulsed-500");
    expect(failed).toMatchObject({ answer: null, state: "failed", line: "no" });
  });
});
