import type { SettingAnswer } from "../../live/protocol.ts";

export interface Live {
  readonly answer: SettingAnswer | null;
  readonly draws: number;
  readonly state: "computing" | "first" | "done" | "failed";
  readonly line: string | null;
  /** the question that the answer belongs to, and the last that was put; equal when the page shows what is set */
  readonly answered: number;
  readonly asked: number;
}

export const nothing: Live = { answer: null, draws: 0, state: "computing", line: null, answered: 0, asked: 0 };

/** Few draws answer while a control moves; the full number follows once it rests. */
export const QUICK_DRAWS = 12;
export const FULL_DRAWS = 64;

/** A question that was put, by its number and its draws. */
export interface Asked {
  readonly number: number;
  readonly drawCount: number;
}

/**
 * What is known once an answer came; `newest` is the number of the last question. Quick and full answers come from two
 * workers, so a full one that comes when the hand has moved on, or a quick one that comes behind its full one, is of no
 * use any more.
 */
export function withAnswer(now: Live, answer: SettingAnswer, ask: Asked, newest: number): Live {
  const full = ask.drawCount === FULL_DRAWS;
  const late = full ? ask.number !== newest : now.state === "done" && now.answered >= ask.number;
  if (late) return now;
  return {
    answer,
    draws: ask.drawCount,
    state: full ? "done" : "first",
    line: null,
    answered: ask.number,
    asked: newest,
  };
}

/** What is known once a question failed; one that nobody asks any more says nothing. */
export function withFailure(now: Live, error: Error, ask: Asked, newest: number): Live {
  if (ask.number !== newest) return now;
  return { ...now, state: "failed", line: error.message, answered: ask.number, asked: newest };
}

/** What is known of the laser that is set now: an answer about the one that stood there before says nothing of it. */
export function about(live: Live, setupId: string): Live {
  if (live.answer === null || live.answer.prediction.setupId === setupId) return live;
  return { ...live, answer: null, draws: 0, state: live.state === "failed" ? "failed" : "computing" };
}
