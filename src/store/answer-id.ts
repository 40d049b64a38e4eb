/** Id of an answer by its row. */
export const answerId = (row: number): string => `answer-${row}`;

/** Row of an answer's id, or null for what is no such id. */
export function answerRow(id: string): number | null {
  const match = /^answer-([1-9]\d{0,14})$/.exec(id);
  return match === null ? null : Number(match[1]);
}
