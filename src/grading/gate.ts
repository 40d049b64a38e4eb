/** A reason not to grade a photograph: a short name for programs and one sentence for the person who took it. */
export interface Gate {
  readonly gate: string;
  readonly sentence: string;
}
