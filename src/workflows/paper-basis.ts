import type { EnquiryAnswer, PartAnswer, SetupVerdict } from "#terms";

/**
 * As much of an answer as its papers are written from, to be kept beside it: the parts, the verdicts and what the trials
 * recommend, without draws, maps, patches and readings. `papersOf` gives the same papers for it as for the whole.
 */
export function paperBasis(answer: EnquiryAnswer): EnquiryAnswer {
  return { ...answer, parts: answer.parts.map(basisOf) };
}

function basisOf({ part, triage, verdicts, trials }: PartAnswer): PartAnswer {
  return {
    part,
    triage,
    verdicts: verdicts.map(withoutDraws),
    comparison: null,
    advice: [],
    trials: trials.map(({ trial, outcomes, window }) => ({
      trial: { ...trial, patches: [] },
      outcomes,
      window: window && {
        ...window,
        next: [],
        map: null,
        learnt: { pinned: [], properties: [], shifts: [], words: [] },
      },
    })),
  };
}

const withoutDraws = (verdict: SetupVerdict): SetupVerdict =>
  verdict.best === null ? verdict : { ...verdict, best: { ...verdict.best, draws: [] } };
