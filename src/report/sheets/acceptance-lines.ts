import type { Acceptance } from "#terms";
import { requireShare } from "#units";
import type { Speech } from "./speech.ts";
import { fill } from "./words.ts";

/** The limits of an acceptance in the words of a language. */
export interface LimitWords {
  readonly residue: string;
  readonly condition: string;
  /** null where the temperature is not limited */
  readonly temperature: string | null;
}

export function limitWords(
  { residueMax, metalConditionMax, metalTemperatureMax }: Acceptance,
  speech: Speech,
): LimitWords {
  return {
    residue: speech.quantity("residue limit", requireShare("residue limit", residueMax), "%"),
    condition: speech.words.acceptance.conditions[metalConditionMax],
    temperature:
      metalTemperatureMax === null ? null : speech.quantity("metal temperature", metalTemperatureMax, "degC"),
  };
}

/** What a part must meet, one line each. */
export function acceptLines(acceptance: Acceptance, speech: Speech): string[] {
  const said = speech.words.acceptance;
  const limits = limitWords(acceptance, speech);
  const tests = acceptance.tests.map(({ kind, method, limit }) =>
    fill(said.test, { test: said.tests[kind], method, limit: limit.trim() === "" ? said.noLimit : limit }),
  );
  return [
    fill(said.residue, { limit: limits.residue }),
    fill(said.condition, { grade: limits.condition }),
    ...(limits.temperature === null ? [] : [fill(said.temperature, { limit: limits.temperature })]),
    ...(tests.length === 0 ? [said.noTests] : tests),
  ];
}

/** What sends a part back, one line each. */
export function rejectLines(acceptance: Acceptance, speech: Speech): string[] {
  const said = speech.words.acceptance;
  const limits = limitWords(acceptance, speech);
  return [
    fill(said.rejectResidue, { limit: limits.residue }),
    // grade 4 is the worst there is: nothing lies above it
    ...(acceptance.metalConditionMax === 4 ? [] : [fill(said.rejectCondition, { grade: limits.condition })]),
    ...(limits.temperature === null ? [] : [fill(said.rejectTemperature, { limit: limits.temperature })]),
    ...(acceptance.tests.length === 0 ? [] : [said.rejectTests]),
    said.rejected,
  ];
}
